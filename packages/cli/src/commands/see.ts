import {
  type Body,
  type Place,
  placeFrom,
  placesOf,
  placeText,
  positionAt,
  unknownCharacteristic,
} from '@fettle/book';
import { failed, issue, type Outcome, ok } from '@fettle/core';
import { entered, present } from '../entered.ts';
import type { Register } from '../registration.ts';

export const registerSeen: Register = (program, run) => {
  program
    .command('see <job> <characteristic> <found>')
    .description('enter what was seen, where nothing is measured')
    .option('--at <place>')
    .option('--part <part>')
    .option('--as-wanted', 'it is as the sheet wants it')
    .option('--not-as-wanted', 'it is not')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle see linnet crank.main-cap-arrow "arrow to the rear" --at 2 --not-as-wanted',
    )
    .action(
      (
        job: string,
        id: string,
        found: string,
        said: { at?: string; part?: string; asWanted?: boolean; notAsWanted?: boolean; note?: string },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench) => {
              const book = bench.book();
              const characteristic = book.characteristics.get(id);
              if (!characteristic) return failed(unknownCharacteristic(book, id));
              if (characteristic.kind !== 'seen')
                return failed(
                  issue(
                    'seen/is-measured',
                    id,
                    'what was seen',
                    'a reading',
                    `${characteristic.name} is measured. Enter it with "fettle read".`,
                  ),
                );
              if (said.asWanted === said.notAsWanted)
                return failed(
                  issue(
                    'seen/undecided',
                    'as wanted',
                    'not said',
                    '--as-wanted or --not-as-wanted',
                    `Wanted is: ${characteristic.wanted}. Say --as-wanted or --not-as-wanted.`,
                  ),
                );
              const place: Outcome<Place> =
                said.at === undefined
                  ? ok({})
                  : placeFrom(book.sheet ?? { axes: {} }, characteristic, said.at);
              if (!place.ok) return place;
              const position = characteristic.position && positionAt(characteristic.position, place.value);
              if (position?.includes('{') && said.part === undefined)
                return failed(
                  issue(
                    'place/missing',
                    '--at',
                    said.at ?? 'no place',
                    placesOf(book.sheet ?? { axes: {} }, characteristic)
                      .map((one) => placeText(one))
                      .join(', '),
                    `${characteristic.name} is looked at in several places, each on a part of its own. Say where with --at.`,
                  ),
                );
              const state =
                said.part === undefined
                  ? position && book.positions.get(position)?.now?.state
                  : book.parts.get(said.part)?.current.id;
              if (position !== undefined && state === undefined)
                return failed(
                  issue(
                    'part/none-fitted',
                    position,
                    said.part ?? 'no part',
                    `a part entered and fitted at ${position}`,
                    `Nothing is entered as fitted at ${position}. Enter the part with "fettle part", or name one with --part.`,
                  ),
                );
              return ok({
                kind: 'seen',
                body: present({
                  characteristic: id,
                  state,
                  place: Object.keys(place.value).length > 0 ? place.value : undefined,
                  found,
                  as_wanted: said.asWanted === true,
                  note: said.note,
                }) as Body<'seen'>,
              });
            },
            `${id}${said.at === undefined ? '' : `@${said.at}`}: ${found}. Entered ${said.asWanted ? 'as wanted' : 'not as wanted'}.`,
          ),
        ),
    );
};

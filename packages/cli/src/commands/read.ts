import {
  admittedReading,
  asFittedNow,
  assessed,
  type Body,
  type Book,
  type Characteristic,
  isQuestion,
  type Place,
  placeFrom,
  placesOf,
  placeText,
  positionAt,
  unknownCharacteristic,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from '../bench.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { judgementJson } from '../words/judgement-json.ts';
import { judgementLines } from '../words/judgement-lines.ts';

interface Said {
  readonly at?: string;
  readonly part?: string;
  readonly goes?: string;
  readonly stops?: string;
  readonly drags?: boolean;
  readonly with?: string;
  readonly measurand?: string;
  readonly partTemperature?: string;
  readonly instrumentTemperature?: string;
  readonly firstSaid?: string;
  readonly confirm?: boolean;
  readonly note?: string;
}

export const registerRead: Register = (program, run) => {
  program
    .command('read <job> <characteristic> [values...]')
    .description(
      'enter a reading: a number, or leaves that go and stop; several numbers fill the places in bench order',
    )
    .option('--at <place>', 'such as 2/rear/90, or 2 for all places of 2, or rod=2,end=rear')
    .option('--part <part>', 'the part it was read on; what is fitted there when absent')
    .option('--goes <leaf>', 'the largest feeler leaf that goes; leaves laid together as "12 thou + 10 thou"')
    .option('--stops <leaf>', 'the smallest feeler leaf that does not, or leaves laid together')
    .option('--drags', 'the leaf that goes drags: it fills the gap')
    .option('--with <instrument>', 'an instrument declared with "fettle tools"')
    .option('--measurand <measurand>', 'how it was read, where a characteristic can be read in several ways')
    .option('--part-temperature <t>', 'of the part itself')
    .option('--instrument-temperature <t>')
    .option('--first-said <value>', 'what was said first, before it was corrected')
    .option('--confirm', 'keep it although it is asked about')
    .option('--note <text>')
    .addHelpText(
      'after',
      `
Examples:
  fettle read linnet pump.end-clearance --part gears-old --goes 2thou --stops 3thou --with leaves --measurand to-straightedge
  fettle read linnet ring.gap --at 3/top --goes "20thou + 18thou" --stops "20thou + 19thou" --with leaves
  fettle read linnet crank.rod-journal 2.1232in 2.1231in 2.1232in 2.1231in --at 1 --with micrometer
  fettle read linnet crank.end-float 0.0115in --with indicator`,
    )
    .action((job: string, characteristic: string, values: string[], said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? entered(bench.value, characteristic, values, said) : bench;
      }),
    );
};

/** A reading needs a part. Where none was entered yet, what lies there as found is one, and says so. */
function partsWanted(
  book: Book,
  characteristic: Characteristic,
  places: readonly Place[],
  said: Said,
): Draft[] {
  if (characteristic.position === undefined || said.part !== undefined) return [];
  const positions = new Set(places.map((place) => positionAt(characteristic.position!, place)));
  return [...positions].flatMap((position): Draft[] => {
    if (book.positions.get(position)?.now) return [];
    const part = `${position}-as-found`;
    if (book.parts.has(part)) return [];
    const name = `${position.replaceAll('-', ' ')}, as found`;
    return [
      { kind: 'part-entered', body: { part, name, condition: 'used' } },
      { kind: 'part-fitted', body: { position, part } },
    ];
  });
}

async function entered(
  bench: Bench,
  id: string,
  values: readonly string[],
  said: Said,
): Promise<Outcome<Reply>> {
  const characteristic = bench.book().characteristics.get(id);
  if (!characteristic) return failed(unknownCharacteristic(bench.book(), id));
  const placed = placedValues(bench.book(), characteristic, values, said);
  if (!placed.ok) return placed;
  const first = partsWanted(
    bench.book(),
    characteristic,
    placed.value.map(({ place }) => place),
    said,
  );
  // Whatever is wrong with the reading is found before anything is written.
  const bodies = admitted(bench.book(), characteristic, placed.value, said, first.length > 0);
  if (!bodies.ok) return bodies;
  if (first.length > 0) {
    const parts = await bench.write(first);
    if (!parts.ok) return parts;
  }
  const final = admitted(bench.book(), characteristic, placed.value, said, false);
  if (!final.ok) return final;
  const written = await bench.write(final.value.map((body): Draft => ({ kind: 'reading', body })));
  if (!written.ok) return written;
  return ok(
    answer(
      bench.book(),
      characteristic,
      placed.value.map(({ place }) => place),
      written.value,
      first,
    ),
  );
}

interface PlacedValue {
  readonly place: Place;
  readonly value?: string;
}

/** Numbers dealt out to the places left after --at, in bench order. */
function placedValues(
  book: Book,
  characteristic: Characteristic,
  values: readonly string[],
  said: Said,
): Outcome<PlacedValue[]> {
  const sheet = book.sheet ?? { axes: {} };
  const fixed = said.at === undefined ? ok({}) : placeFrom(sheet, characteristic, said.at);
  if (!fixed.ok) return fixed;
  const places = placesOf(sheet, characteristic).filter((place) =>
    Object.entries(fixed.value).every(([axis, value]) => place[axis] === value),
  );
  const leaves = said.goes !== undefined || said.stops !== undefined;
  const count = values.length;
  if (count === 0 && !leaves)
    return failed({
      code: 'reading/nothing-said',
      at: 'value',
      got: 'neither a number nor a leaf',
      wanted: 'a number with its unit, or --goes and --stops',
      message: `What does ${characteristic.name} read? Give a number with its unit, or the leaves with --goes and --stops.`,
    });
  if (count > 0 && leaves)
    return failed({
      code: 'reading/both-said',
      at: 'value',
      got: `${count} numbers and leaves`,
      wanted: 'one or the other',
      message: 'A reading is a number or leaves, not both. Enter them as two readings.',
    });
  if (leaves || count === 1) {
    const place =
      leaves || places.length === 1 ? (places.length === 1 ? places[0]! : fixed.value) : fixed.value;
    // A derived characteristic may be read once for all its places: the reading is spread over them.
    if (places.length === 1 || characteristic.relation !== undefined)
      return ok([{ place, ...(values[0] !== undefined && { value: values[0] }) }]);
  }
  if (count === places.length) return ok(places.map((place, i) => ({ place, value: values[i]! })));
  // Words behind a lone "--" are values, an option among them is a slip of order.
  const strays = values.filter((value) => value.startsWith('--'));
  if (strays.length > 0)
    return failed({
      code: 'command/bad-use',
      at: 'value',
      got: values.join(' '),
      wanted: 'options first, then "--", then the values',
      message: `${strays.join(', ')} stands behind the values. Say the options first and the values last.`,
    });
  if (places.length === 1)
    return failed({
      code: 'reading/places-do-not-match',
      at: 'place',
      got: `${count} readings for one place`,
      wanted: 'one reading',
      message: `${characteristic.name} is read in one place there, and ${count} values came. Give one; enter a repeated reading by itself.`,
    });
  const first = places.slice(0, 8).map((place) => placeText(place));
  return failed({
    code: 'reading/places-do-not-match',
    at: 'place',
    got: `${Math.max(count, 1)} ${count === 1 || leaves ? 'reading' : 'readings'} for ${places.length} places`,
    wanted: places.map((place) => placeText(place)).join(', '),
    message: `${characteristic.name} has ${places.length} places there (${first.join(', ')}${places.length > 8 ? ' …' : ''}). Give one value for each, or name the place with --at.`,
  });
}

/** @param partToCome  the part is about to be entered, so that its absence is no fault yet */
function admitted(
  book: Book,
  characteristic: Characteristic,
  placed: readonly PlacedValue[],
  said: Said,
  partToCome: boolean,
): Outcome<Body<'reading'>[]> {
  const bodies: Body<'reading'>[] = [];
  for (const { place, value } of placed) {
    const body = admittedReading(book, {
      characteristic: characteristic.id,
      place,
      part: said.part,
      measurand: said.measurand,
      instrument: said.with,
      value,
      drags: said.drags,
      goes: said.goes,
      stops: said.stops,
      temperature: { part: said.partTemperature, instrument: said.instrumentTemperature },
      firstSaid: said.firstSaid,
      confirmed: said.confirm,
      note: said.note,
    });
    if (body.ok) bodies.push(body.value);
    else {
      const faults = body.issues.filter(({ code }) => !(partToCome && code === 'part/none-fitted'));
      if (faults.length > 0)
        return failed(
          ...faults.map((one) =>
            isQuestion(one)
              ? { ...one, message: `${one.message} Keep it with --confirm; name a slip with --first-said.` }
              : one,
          ),
        );
    }
  }
  return ok(bodies);
}

function answer(
  book: Book,
  characteristic: Characteristic,
  places: readonly Place[],
  written: unknown,
  parts: readonly Draft[],
): Reply {
  const touched = assessed(book, asFittedNow(book), CATALOGUE, characteristic.id).filter((judgement) =>
    places.some((place) => Object.entries(judgement.place).every(([axis, v]) => (place[axis] ?? v) === v)),
  );
  const also = parts.flatMap((draft) =>
    draft.kind === 'part-entered'
      ? [`Entered with it: ${draft.body.name} (used), as the part it was read on.`]
      : [],
  );
  return {
    json: { entries: written, judgements: touched.map(judgementJson) },
    text: [...also, ...touched.flatMap((judgement) => judgementLines(judgement))].join('\n'),
  };
}

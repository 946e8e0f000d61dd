import { type Assessed, type Book, type Characteristic, type Place, placesOf, placeText } from '@fettle/book';
import { placeWords } from '../words/entry.ts';
import { lineName } from './line-names.ts';
import { isReadElsewhere } from './other-states.ts';

/** A characteristic with the places of it that are still to be measured. */
export interface Unmeasured {
  readonly characteristic: Characteristic;
  readonly places: readonly Place[];
  readonly all: boolean;
}

/** What has not been measured and is wanted, in the order of the sheet, then of the bench. */
export function unmeasured(book: Book, judgements: readonly Assessed[]): Unmeasured[] {
  const wanted = new Map<string, Set<string>>();
  for (const { missing } of judgements)
    for (const { characteristic, place } of missing) {
      const axes = book.characteristics.get(characteristic)?.places ?? [];
      const places = wanted.get(characteristic) ?? new Set();
      wanted.set(characteristic, places.add(placeText(place, axes)));
    }
  return [...book.characteristics.values()].flatMap((characteristic) => {
    const missing = wanted.get(characteristic.id);
    if (!missing) return [];
    const all = placesOf(book.sheet ?? { axes: {} }, characteristic);
    const places = all.filter((place) => missing.has(placeText(place, characteristic.places)));
    return places.length === 0 ? [] : [{ characteristic, places, all: places.length === all.length }];
  });
}

/** What cannot be worked out for want of it. */
function waiting(judgements: readonly Assessed[], id: string): string[] {
  return [
    ...new Set(
      judgements
        .filter(
          ({ characteristic, missing, status }) =>
            status === 'missing' &&
            characteristic.id !== id &&
            missing.some((one) => one.characteristic === id),
        )
        .map(({ characteristic }) => characteristic.name),
    ),
  ];
}

export const unmeasuredPages = (book: Book, judgements: readonly Assessed[]) =>
  unmeasured(book, judgements).map(({ characteristic, places, all }) => ({
    line: lineName(book, characteristic),
    name: characteristic.name,
    id: characteristic.id,
    what:
      characteristic.kind === 'seen'
        ? 'not seen'
        : isReadElsewhere(book, judgements, characteristic.id)
          ? 'not read on the parts fitted'
          : 'not read',
    places:
      characteristic.places.length === 0
        ? ''
        : all
          ? `everywhere (${places.length} ${places.length === 1 ? 'place' : 'places'})`
          : places.map((place) => placeWords(place, characteristic.places)).join(', '),
    optional: characteristic.optional === true,
    waiting: waiting(judgements, characteristic.id),
  }));

import type { Book, Part } from '../fold/book.ts';
import { axesIn, axisValues, type Place, positionAt } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';

/** What goes from seat to seat in a matching, and where it can go. */
export interface Movable {
  /** The position pattern of what moves: `piston-{cylinder}`. */
  readonly moves: string;
  /** What the sheet calls it: `Piston`. */
  readonly name: string;
  /** The places of the characteristic along the pattern's axes, in bench order. */
  readonly seats: readonly Place[];
  /** Parts measured for it, in the order in which they were entered. */
  readonly parts: readonly Part[];
}

/** Position patterns of a characteristic that name a place: its own first, then those of its mates. */
export const movingPatterns = ({ position, mates = [] }: Characteristic): string[] =>
  [...(position === undefined ? [] : [position]), ...mates].filter((pattern) => axesIn(pattern).length > 0);

function seatsOf(book: Book, characteristic: Characteristic, pattern: string): Place[] {
  let seats: Place[] = [{}];
  for (const axis of axesIn(pattern)) {
    const values = axisValues(book.sheet ?? { axes: {} }, characteristic, axis);
    seats = seats.flatMap((seat) => values.map((value) => ({ ...seat, [axis]: value })));
  }
  return seats;
}

/** Characteristics read directly on parts of a pattern: the sizes by which such a part is known. */
const readOn = (book: Book, pattern: string): ReadonlySet<string> =>
  new Set(
    [...book.characteristics.values()]
      .filter(({ position }) => position === pattern)
      .map((characteristic) => characteristic.id),
  );

/**
 * Parts that may be matched: those read, in their present state, for something that belongs to this pattern.
 * New ones in their boxes count as well as those fitted; where both kinds were measured, only the new ones do,
 * since old and new are not mixed unless somebody names them.
 */
function measuredParts(book: Book, pattern: string): Part[] {
  const own = readOn(book, pattern);
  const states = new Set(
    book.readings
      .filter(({ standing, body }) => standing === 'counts' && own.has(body.characteristic))
      .map(({ body }) => body.state),
  );
  const measured = [...book.parts.values()].filter(({ current }) => states.has(current.id));
  const fresh = measured.filter(({ current }) => current.condition !== 'used');
  return fresh.length > 0 ? fresh : measured;
}

/** @param named  parts to be matched, instead of all that were measured */
export function movable(
  book: Book,
  characteristic: Characteristic,
  pattern: string,
  named?: readonly string[],
): Movable {
  const parts = named ? named.flatMap((id) => book.parts.get(id) ?? []) : measuredParts(book, pattern);
  return {
    moves: pattern,
    name: nameOf(book, pattern),
    seats: seatsOf(book, characteristic, pattern),
    parts,
  };
}

const nameOf = (book: Book, pattern: string): string =>
  book.sheet?.positions.find(({ id }) => id === pattern)?.name ?? pattern;

/** The position of a seat. */
export const seatPosition = ({ moves }: Movable, seat: Place): string => positionAt(moves, seat);

/** Everything of a job that could be matched now: derived, with at least as many measured parts as seats. */
export function movablesOf(book: Book): (Movable & { readonly characteristic: Characteristic })[] {
  return [...book.characteristics.values()].flatMap((characteristic) =>
    characteristic.relation === undefined
      ? []
      : movingPatterns(characteristic).flatMap((pattern) => {
          const set = movable(book, characteristic, pattern);
          return set.seats.length > 1 && set.parts.length >= set.seats.length
            ? [{ ...set, characteristic }]
            : [];
        }),
  );
}

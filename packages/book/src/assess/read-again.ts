import type { Book } from '../fold/book.ts';
import type { Place } from '../sheet/places.ts';
import { placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { Assessed } from './assessment.ts';
import type { NextMove } from './next-move.ts';

/** A place that was read, where nobody can tell, and where reading again could settle it. */
export interface ReadAgain {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly judgement: Assessed;
  readonly move: NextMove;
  /** Whether what is owned would do; else something has to be borrowed, or it reads on the limit itself. */
  readonly atHand: boolean;
}

/** Where a characteristic was read of which a judgement was worked out, at the place that decides. */
function placesBehind(book: Book, judgement: Assessed, id: string): Place[] {
  const { worstAt, members } = judgement;
  const decides = worstAt && members.find((member) => placeText(member.place) === placeText(worstAt));
  const rests = new Set((decides ? [decides] : members).flatMap(({ known }) => known.entries));
  return book.readings
    .filter(({ entry, body }) => body.characteristic === id && rests.has(entry.id))
    .map(({ body }) => body.place ?? {});
}

const AT_HAND: ReadonlySet<NextMove['move']> = new Set([
  'measure',
  'try-leaf',
  'use-instrument',
  'settle-disagreement',
]);

/** What is read for a judgement, and where: itself, or what most of its doubt comes from. */
function readFor(
  book: Book,
  judgement: Assessed,
  move: NextMove,
): Pick<ReadAgain, 'characteristic' | 'place'>[] {
  const own = [{ characteristic: judgement.characteristic, place: judgement.worstAt ?? judgement.place }];
  const behind = (one: Characteristic) =>
    one.id === judgement.characteristic.id
      ? own
      : placesBehind(book, judgement, one.id).map((place) => ({ characteristic: one, place }));
  switch (move.move) {
    case 'measure':
      return [...move.what];
    case 'use-instrument':
      return behind(move.characteristic);
    case 'try-leaf':
    case 'settle-disagreement':
      return own;
    case 'finer-than-owned':
      return move.mostly ? move.mostly.of.flatMap(behind) : own;
    case 'on-the-limit':
      return judgement.characteristic.relation === undefined ? own : [];
    default:
      return [];
  }
}

/** Every place to be read again, each once for each move, in the order of the judgements. */
export function readAgain(book: Book, judgements: readonly Assessed[]): ReadAgain[] {
  const found = new Map<string, ReadAgain>();
  for (const judgement of judgements) {
    const { status, next: move } = judgement;
    if (status !== 'cannot-tell' || !move) continue;
    const atHand = AT_HAND.has(move.move);
    for (const one of readFor(book, judgement, move)) {
      const key = `${one.characteristic.id}@${placeText(one.place, one.characteristic.places)}`;
      const before = found.get(key);
      // What is at hand goes before what has to be borrowed.
      if (!before || (atHand && !before.atHand)) found.set(key, { ...one, judgement, move, atHand });
    }
  }
  return [...found.values()];
}

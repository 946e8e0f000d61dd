import { nutFactor } from '@fettle/core';
import type { Book, TorqueOnRecord } from '../fold/book.ts';
import type { Undoing } from '../fold/undoing.ts';
import { isBefore } from '../ledger/ledger.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import { isAt, type Place, placeAlong, positionsOf } from '../sheet/places.ts';
import type { Fastener } from '../sheet/sheet.ts';

/** Why a torque that was logged does not prove its joint. */
export type TorqueDoubt =
  /** The threads were not as the sheet has them, and nobody decided that it stands. */
  | { readonly why: 'other-condition'; readonly said: string; readonly sheet: string }
  /** A check of the wrench failed. */
  | { readonly why: 'to-be-taken-again'; readonly check: string }
  /** Tightened again since, to a torque that is not the sheet's. */
  | { readonly why: 'other-torque'; readonly pass: TorqueOnRecord }
  | { readonly why: 'undone'; readonly by: Undoing };

/** How a joint stands at one place: proven by a pass, or not, and why not. */
export interface JointProof {
  readonly place: Place;
  /** The last pass at the sheet's torque. */
  readonly pass?: TorqueOnRecord;
  readonly doubt?: TorqueDoubt;
}

export const isProven = ({ pass, doubt }: JointProof): boolean => pass !== undefined && doubt === undefined;

/**
 * How a joint stands at one place. A pass proves it when it was the last one and at the sheet's torque, and nothing
 * speaks against it:
 *
 * - since then the joint was not left loose, dry or finger-tight, no part it clamps was fitted, taken out or reworked,
 *   and no cover over it was opened; what was opened may have been touched. "Since then" is whatever the writer of the
 *   pass had not seen: what two devices wrote beside each other counts as since;
 * - no failed check of the wrench asks for it again;
 * - the threads were as the sheet has them.
 *
 * Somebody may decide that it stands although a cover was opened or the threads were otherwise. A joint loosened, a
 * part refitted, a wrench that failed leave nothing to decide: it is tightened again.
 *
 * @param passes  of the fastener, in the order of the ledger
 */
export function jointProof(
  book: Book,
  fastener: Fastener,
  place: Place,
  passes: readonly TorqueOnRecord[],
  { isLast, isAtTorque }: Record<'isLast' | 'isAtTorque', (pass: TorqueOnRecord) => boolean>,
): JointProof {
  const here = passes.filter(({ body }) => isAt(body.place ?? {}, place));
  const last = here.filter((pass) => isLast(pass) && isAtTorque(pass)).at(-1);
  if (!last) return { place };
  const doubt = doubtOf(book, fastener, place, here, last, isAtTorque);
  return { place, pass: last, ...(doubt && { doubt }) };
}

function doubtOf(
  book: Book,
  fastener: Fastener,
  place: Place,
  here: readonly TorqueOnRecord[],
  pass: TorqueOnRecord,
  isAtTorque: (pass: TorqueOnRecord) => boolean,
): TorqueDoubt | undefined {
  const decided = book.torqueDecisions.filter(
    ({ entry, body }) => body.passes.includes(pass.entry.id) && isBefore(pass.entry, entry),
  );
  const stillOpen = (undoing: Undoing): boolean =>
    undoing.what !== 'opened' || !decided.some(({ entry }) => isBefore(undoing.entry, entry));
  const clamped = clampedPositions(book, fastener, place);
  const undoing = book.undoings
    .filter((one) => !isBefore(one.entry, pass.entry) && touches(book, one, fastener, place, clamped))
    .filter(stillOpen);
  // What cannot be decided away is said first.
  const by = undoing.find(({ what }) => what !== 'opened') ?? undoing[0];
  if (by) return { why: 'undone', by };
  const other = here.slice(here.indexOf(pass) + 1).find((later) => !isAtTorque(later));
  if (other) return { why: 'other-torque', pass: other };
  if (pass.standing === 'to-be-taken-again')
    return { why: 'to-be-taken-again', check: book.reopened.get(pass.entry.id)! };
  if (decided.length > 0) return undefined;
  return otherCondition(fastener, pass.body.condition);
}

function touches(
  book: Book,
  undoing: Undoing,
  fastener: Fastener,
  place: Place,
  clamped: ReadonlySet<string>,
): boolean {
  switch (undoing.what) {
    case 'loosened':
      return undoing.joint === fastener.id && isAt(undoing.place, place);
    case 'opened': {
      const cover = book.sheet?.covers.find(({ id }) => id === undoing.cover);
      return cover?.hides.fasteners.some((pattern) => isMeantBy(pattern, fastener.id)) === true;
    }
    default:
      return undoing.positions.some((position) => clamped.has(position));
  }
}

/**
 * The positions a joint holds together at one place: those the sheet names, else those that stand at the places of the
 * joint (main shells 2 under the bolts of main 2). A named position whose axes the joint does not have is meant
 * wherever it stands.
 */
function clampedPositions({ sheet }: Book, fastener: Fastener, place: Place): Set<string> {
  if (!sheet) return new Set();
  const patterns =
    fastener.clamps ??
    sheet.positions
      .filter(({ places }) => places?.some((axis) => fastener.places.includes(axis)))
      .map(({ id }) => id);
  const meant = sheet.positions.filter(({ id }) => patterns.includes(id));
  const here = positionsOf({ axes: sheet.axes, positions: meant }).filter((position) =>
    isAt(placeAlong(position.place, fastener.places), place),
  );
  return new Set([...here.map(({ id }) => id), ...patterns]);
}

/** One name for a condition that the trade has several for. */
const plain = (condition: string): string =>
  nutFactor(condition)?.condition ?? condition.trim().toLowerCase();

/**
 * Threads that were not as the sheet has them. Where the sheet states a nut factor and no condition, they are as it
 * has them while the factor is one that such threads may have. A pass that says nothing of its threads took the sheet
 * at its word.
 */
export function otherCondition(
  { condition, nut_factor: stated }: Fastener,
  said: string | undefined,
): Extract<TorqueDoubt, { why: 'other-condition' }> | undefined {
  if (said === undefined || said.trim() === '') return undefined;
  const doubt = (sheet: string) => ({ why: 'other-condition' as const, said, sheet });
  if (stated === undefined)
    return condition === undefined || plain(condition) === plain(said) ? undefined : doubt(condition);
  const band = nutFactor(said);
  return band && stated >= band.low && stated <= band.high
    ? undefined
    : doubt(`at a nut factor of ${stated}`);
}

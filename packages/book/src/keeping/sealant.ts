import { parseQuantity } from '@fettle/core';
import type { Book, CoverMove, Written } from '../fold/book.ts';
import { isBefore } from '../ledger/ledger.ts';
import type { Cover } from '../sheet/sheet.ts';

/** Clocks of two devices may differ by so much, and a start be rounded [ms]. Common practice, no source. */
export const CLOCKS_APART = 5 * 60_000;

/** Why a joint that is curing will not come right by waiting. */
type SealantFault =
  /** It lay open longer than it may, and no cover went on in time. */
  | 'lain-open'
  /** Its cover went on too late. */
  | 'closed-late'
  /** Its cover came off again. */
  | 'opened-since'
  /** It is said to begin in the future. */
  | 'starts-later'
  /** What was said of its times does not read. */
  | 'unreadable';

export interface Sealant {
  /** Unix time at which it went on [ms]; absent where it does not read. */
  readonly startedAt?: number;
  /** Unix time at which it will be cured [ms]; absent where no time of curing was said. */
  readonly curedAt?: number;
  /** Of one that must be closed on while it is wet: minutes it has lain, where the time is known, and may. */
  readonly wet?: { readonly minutes?: number; readonly allowed: number };
  /** Its cover went on while it was wet, and stayed on. */
  readonly closedInTime: boolean;
  readonly fault?: SealantFault;
}

const MINUTE = 60_000;

/** [ms]; `NaN` where it does not read, undefined where nothing was said. */
const millis = (said: string | undefined): number | undefined => {
  if (said === undefined) return undefined;
  const read = parseQuantity(said, 'time');
  return read.ok ? read.value.value * 1000 : Number.NaN;
};

/**
 * How a sealant stands. Time alone makes it good only where it may cure in the open: one that must be closed on while
 * it is wet is good when a cover over it went on within its open time and stayed on. What lay open too long cures as
 * well, and seals nothing.
 *
 * @param covers  any of which closes it
 * @param now     Unix time [ms]; without it nobody can tell how long it has lain
 * @returns       undefined when it is cured
 */
export function sealantOf(
  book: Book,
  { entry, body }: Written<'joint-state'>,
  covers: readonly Cover[],
  now: number | undefined,
): Sealant | undefined {
  const started = Date.parse(body.started ?? entry.at);
  const [within, cures] = [millis(body.close_within), millis(body.cures_after)];
  if ([started, within ?? 0, cures ?? 0].some((time) => !(time >= 0)))
    return { closedInTime: false, fault: 'unreadable' };
  const moves = book.coverMoves.filter((move) => isAfter(move, { entry, body }, started));
  const closing = within === undefined ? undefined : closingOf(moves, covers, started, within);
  const curedAt = cures === undefined ? undefined : started + cures;
  const lain = now === undefined ? undefined : Math.max(0, now - started);
  const fault = faultOf({ started, within, closing, lain, now });
  if (!fault && now !== undefined && curedAt !== undefined && now >= curedAt) return undefined;
  return {
    startedAt: started,
    closedInTime: closing === 'in-time',
    ...(curedAt !== undefined && { curedAt }),
    ...(within !== undefined && {
      wet: { allowed: within / MINUTE, ...(lain !== undefined && { minutes: lain / MINUTE }) },
    }),
    ...(fault && { fault }),
  };
}

/** Unix times at which it changes by itself: believed to have begun, open for too long, cured [ms]. */
export function sealantMoments({ entry, body }: Written<'joint-state'>): number[] {
  const started = Date.parse(body.started ?? entry.at);
  return [-CLOCKS_APART, millis(body.close_within), millis(body.cures_after)].flatMap((span) => {
    const moment = span === undefined ? Number.NaN : started + span;
    return Number.isFinite(moment) ? [moment] : [];
  });
}

type Closing = 'in-time' | 'late' | 'opened-since';

function faultOf(of: {
  readonly started: number;
  readonly within: number | undefined;
  readonly closing: Closing | undefined;
  readonly lain: number | undefined;
  readonly now: number | undefined;
}): SealantFault | undefined {
  const { started, within, closing, lain, now } = of;
  if (now !== undefined && started > now + CLOCKS_APART) return 'starts-later';
  if (closing === 'late') return 'closed-late';
  if (closing === 'opened-since') return 'opened-since';
  const open = within !== undefined && closing === undefined;
  return open && lain !== undefined && lain > within ? 'lain-open' : undefined;
}

/**
 * Whether a cover was moved after the sealant went on: what its writer had seen was before it, unless the start was
 * said afterwards. Here, and only here, clocks are compared: the open time of a sealant is a time of the clock.
 */
function isAfter(
  { entry }: CoverMove,
  { entry: laid, body }: Written<'joint-state'>,
  started: number,
): boolean {
  const seen = isBefore(entry, laid);
  if (seen && body.started === undefined) return false;
  return Date.parse(entry.at) >= started - (seen ? 0 : CLOCKS_APART);
}

/** Whether a cover went on over it in time, and stayed on. */
function closingOf(
  after: readonly CoverMove[],
  covers: readonly Cover[],
  started: number,
  within: number,
): Closing | undefined {
  const each = covers.flatMap(({ id }): Closing[] => {
    const moves = after.filter(({ body }) => body.cover === id);
    const first = moves.findIndex(isClosing);
    if (first < 0) return [];
    if (moves.slice(first).some((move) => !isClosing(move))) return ['opened-since'];
    return [Date.parse(moves[first]!.entry.at) - started > within ? 'late' : 'in-time'];
  });
  return (['in-time', 'late', 'opened-since'] as const).find((one) => each.includes(one));
}

const isClosing = ({ entry }: CoverMove): boolean => entry.kind === 'cover-closed';

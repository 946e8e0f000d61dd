import { failed, type Outcome, ok } from '../issue.ts';
import { printQuantity } from '../units/unit.ts';
import type { Verdict } from './conformity.ts';
import { atMost, isLimited, type Limits } from './limits.ts';

/** What feeler leaves say about a gap: at least `goes`, less than `stops` [m]. */
export interface Bracket {
  /** The thickest leaf that goes; absent when none went. */
  readonly goes?: number | undefined;
  /** The thinnest leaf that does not; absent when none stopped. */
  readonly stops?: number | undefined;
}

/** A leaf as either trade would call it. */
export const lengthInBoth = (si: number): string =>
  `${printQuantity(si, 'mm')} (${printQuantity(si, 'thou')})`;

/** The bracket of many leaves tried at one place; answers that contradict each other are not averaged. */
export function bracketOf(goes: readonly number[], stops: readonly number[]): Outcome<Bracket> {
  const bracket: Bracket = {
    ...(goes.length > 0 && { goes: Math.max(...goes) }),
    ...(stops.length > 0 && { stops: Math.min(...stops) }),
  };
  if (bracket.goes === undefined || bracket.stops === undefined || bracket.goes < bracket.stops)
    return ok(bracket);
  const [a, b] = [lengthInBoth(bracket.goes), lengthInBoth(bracket.stops)];
  return failed({
    code: 'feeler/contradiction',
    at: 'goes',
    got: `${a} goes, ${b} does not`,
    wanted: 'every leaf that goes thinner than every leaf that does not',
    message:
      `A leaf of ${a} is said to go where one of ${b} does not. A dirty, bent or mismarked leaf or a tapered gap does that: ` +
      'clean both, try them again at one place, and strike the answer that was wrong.',
  });
}

/**
 * `in` when the thinnest leaf that stops is at or under the upper limit and the thickest that goes at or over the lower;
 * `out` when one that goes is at or over the upper, or one that stops at or under the lower; otherwise nobody can tell.
 * Nothing that lies between two leaves decides. Without limits there is no verdict.
 */
export function feelerVerdict({ goes, stops }: Bracket, limits: Limits): Verdict | undefined {
  if (!isLimited(limits)) return undefined;
  const { lower, upper } = limits;
  const least = goes ?? 0;
  const most = stops ?? Number.POSITIVE_INFINITY;
  if (upper !== undefined && goes !== undefined && atMost(upper, goes)) return 'out';
  if (lower !== undefined && stops !== undefined && atMost(stops, lower)) return 'out';
  const notOver = upper === undefined || atMost(most, upper);
  const notUnder = lower === undefined || atMost(lower, least);
  return notOver && notUnder ? 'in' : 'cannot-tell';
}

/** The leaves that can still tell something, thin to thick, one of each. */
export function leavesBetween({ goes, stops }: Bracket, leaves: readonly number[]): number[] {
  const open = leaves.filter((t) => t > (goes ?? 0) && t < (stops ?? Number.POSITIVE_INFINITY));
  return [...new Set(open)].sort((a, b) => a - b);
}

/** ⌈log2(n + 1)⌉, the tries that always suffice with n leaves. @source taocp-3 6.2.1 */
export const triesFor = (n: number): number => Math.ceil(Math.log2(n + 1));

export const triesLeft = (bracket: Bracket, leaves: readonly number[]): number =>
  triesFor(leavesBetween(bracket, leaves).length);

/** Beyond this many leaves the full search would be felt. */
const FULL_SEARCH_TO = 60;

interface Cost {
  readonly worst: number;
  readonly mean: number;
  readonly leaf?: number;
}

/**
 * The leaf to try next: the one after which a verdict takes the fewest tries at worst and, among those, the fewest on
 * average with the gap equally likely anywhere in the bracket. A leaf as thick as a limit therefore comes first.
 * Without limits it halves the bracket. Undefined when the verdict stands or no leaf is left between.
 */
export function nextLeaf(bracket: Bracket, leaves: readonly number[], limits: Limits): number | undefined {
  const between = leavesBetween(bracket, leaves);
  if (between.length > FULL_SEARCH_TO) {
    const verdict = feelerVerdict(bracket, limits);
    if (verdict === 'in' || verdict === 'out') return undefined;
    const aim = limits.upper ?? limits.lower ?? (between[between.length >> 1] as number);
    return between.reduce((best, t) => (Math.abs(t - aim) < Math.abs(best - aim) ? t : best));
  }
  // An open top is given an end for weighing averages only; it never decides.
  const top =
    bracket.stops ?? 2 * Math.max(...between, limits.upper ?? 0, limits.lower ?? 0, bracket.goes ?? 0);
  const edges = [bracket.goes, ...between, bracket.stops];
  const place = (i: number): number => (i === 0 ? (bracket.goes ?? 0) : (edges[i] ?? top));
  const known = new Map<number, Cost>();
  const cost = (from: number, to: number): Cost => {
    const key = from * edges.length + to;
    const before = known.get(key);
    if (before) return before;
    const found = cheapest(from, to);
    known.set(key, found);
    return found;
  };
  const cheapest = (from: number, to: number): Cost => {
    const verdict = feelerVerdict({ goes: edges[from], stops: edges[to] }, limits);
    let best: Cost = { worst: 0, mean: 0 };
    if (to - from < 2 || verdict === 'in' || verdict === 'out') return best;
    best = { worst: Number.POSITIVE_INFINITY, mean: Number.POSITIVE_INFINITY };
    for (let i = from + 1; i < to; i++) {
      const [stopped, went] = [cost(from, i), cost(i, to)];
      const share = (place(i) - place(from)) / (place(to) - place(from));
      const worst = 1 + Math.max(stopped.worst, went.worst);
      const mean = 1 + share * stopped.mean + (1 - share) * went.mean;
      if (worst < best.worst || (worst === best.worst && mean < best.mean - 1e-12))
        best = { worst, mean, leaf: place(i) };
    }
    return best;
  };
  return cost(0, edges.length - 1).leaf;
}

/**
 * The gap as uniform between its two leaves, and what the leaves' own error adds.
 *
 *     g = (a + b)/2,  u² = (b − a)²/12 + (u_a² + u_b²)/4
 *
 * @source jcgm-100 4.3.7
 */
export const bracketMiddle = (goes: number, stops: number, leafU = 0): { value: number; u: number } => ({
  value: (goes + stops) / 2,
  u: Math.hypot((stops - goes) / Math.sqrt(12), leafU / Math.SQRT2),
});

/** Share of a closed bracket that lies inside the limits. It is shown and never decides. */
export function shareInside({ goes = 0, stops }: Bracket, limits: Limits): number | undefined {
  if (stops === undefined || !(stops > goes)) return undefined;
  const from = Math.max(goes, limits.lower ?? goes);
  const to = Math.min(stops, limits.upper ?? stops);
  return Math.max(0, to - from) / (stops - goes);
}

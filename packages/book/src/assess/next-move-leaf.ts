import { type Bracket, feelerVerdict, leavesBetween, nextLeaf } from '@fettle/core';
import type { Limits } from './limits.ts';

/** A leaf, and how many tries are to be expected from now on until a verdict stands, itself among them. */
export interface LeafToTry {
  readonly leaf: number;
  readonly expected: number;
  /** Chance that these leaves lead to a verdict at all. */
  readonly decides: number;
}

/** From one bracket on: tries, the chance that a verdict comes of them, and the leaf to begin with. */
interface Search {
  readonly tries: number;
  readonly decides: number;
  readonly at?: number;
}

/** Beyond this many leaves the full search would be felt. */
const FULL_SEARCH_TO = 60;

/** The belief in a gap equally likely anywhere in its bracket. @source jcgm-100 4.3.7 */
export const evenly = (from: number, to: number): number => to - from;

/**
 * The leaf after which a verdict takes the fewest tries on average, weighted by what is believed of the gap; of equals
 * the one in the middle of those that are left.
 *
 *     E(a, b) = 0 where a verdict stands or no leaf is left between
 *     E(a, b) = min over t of  1 + [m(a, t) E(a, t) + m(t, b) E(t, b)] / m(a, b)
 *
 * @param mass  weight of the belief between two sizes [m]; only its proportions count
 * @source taocp-3 6.2.2, the optimum search tree
 */
export function leafOfFewestTries(
  bracket: Bracket,
  leaves: readonly number[],
  limits: Limits,
  mass: (from: number, to: number) => number = evenly,
): LeafToTry | undefined {
  const between = leavesBetween(bracket, leaves);
  if (between.length > FULL_SEARCH_TO) {
    const leaf = nextLeaf(bracket, leaves, limits);
    return leaf === undefined ? undefined : { leaf, expected: Math.log2(between.length + 1), decides: 1 };
  }
  // An open top is given an end for weighing only; it never decides.
  const top =
    bracket.stops ?? 2 * Math.max(...between, limits.upper ?? 0, limits.lower ?? 0, bracket.goes ?? 0);
  const edges = [bracket.goes, ...between, bracket.stops];
  const size = (i: number): number => (i === 0 ? (bracket.goes ?? 0) : (edges[i] ?? top));
  const found = new Map<number, Search>();
  const search = (from: number, to: number): Search => {
    const key = from * edges.length + to;
    const before = found.get(key);
    if (before) return before;
    const best = fewest(from, to);
    found.set(key, best);
    return best;
  };
  const fewest = (from: number, to: number): Search => {
    const verdict = feelerVerdict({ goes: edges[from], stops: edges[to] }, limits);
    const stands = verdict === 'in' || verdict === 'out';
    let best: Search = { tries: 0, decides: stands ? 1 : 0 };
    if (stands || to - from < 2) return best;
    best = { tries: Number.POSITIVE_INFINITY, decides: 0 };
    const whole = mass(size(from), size(to));
    const offMiddle = (i: number): number => Math.abs(2 * i - from - to);
    for (let i = from + 1; i < to; i++) {
      // Where nothing is believed between, either half is as good.
      const share = whole > 0 ? mass(size(from), size(i)) / whole : 0.5;
      const [stopped, went] = [search(from, i), search(i, to)];
      const tries = 1 + share * stopped.tries + (1 - share) * went.tries;
      const isLess = tries < best.tries - 1e-9;
      const isEven = !isLess && tries < best.tries + 1e-9;
      if (isLess || (isEven && best.at !== undefined && offMiddle(i) < offMiddle(best.at)))
        best = { tries, decides: share * stopped.decides + (1 - share) * went.decides, at: i };
    }
    return best;
  };
  const { tries, decides, at } = search(0, edges.length - 1);
  return at === undefined ? undefined : { leaf: size(at), expected: tries, decides };
}

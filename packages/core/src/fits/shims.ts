import { type Metre, metre } from '../units/si.ts';

export interface ShimChoice {
  /** How many of each thickness, in the order given. */
  readonly counts: readonly number[];
  /** Together [m]. */
  readonly thickness: Metre;
  /** What is left of the gap [m]. */
  readonly gap: Metre;
}

/** Shims in one stack; more would be a spring. Common practice, no source. */
export const MOST_SHIMS = 4;

/**
 * The shims that bring a gap nearest to its target, of those that can be had.
 *
 *     gap left = gap − Σ nᵢ tᵢ
 *
 * Every stack up to `most` shims is tried. Nearer to the target is better; of two alike, the one with fewer shims.
 *
 * @param gap       without any [m]
 * @param pairs     true where they go in on both sides alike, two of each: thrust washers
 * @source          shims-together
 */
export function shimsFor(
  gap: Metre,
  thicknesses: readonly Metre[],
  target: Metre,
  { most = MOST_SHIMS, pairs = false }: { readonly most?: number; readonly pairs?: boolean } = {},
): ShimChoice {
  const each = pairs ? 2 : 1;
  let best: ShimChoice | undefined;
  const consider = (counts: readonly number[]): void => {
    const thickness = metre(counts.reduce((sum, n, i) => sum + each * n * thicknesses[i]!, 0));
    const left = metre(gap - thickness);
    const choice = { counts: counts.map((n) => n * each), thickness, gap: left };
    if (!best || isBetter(choice, best, target)) best = choice;
  };
  const visit = (i: number, counts: number[], left: number): void => {
    if (i === thicknesses.length) {
      consider(counts);
      return;
    }
    for (let n = 0; n <= left; n++) visit(i + 1, [...counts, n], left - n);
  };
  visit(0, [], most);
  return best!;
}

const LAST_BITS = 1e-12;
const sum = (counts: readonly number[]): number => counts.reduce((s, n) => s + n, 0);

function isBetter(a: ShimChoice, b: ShimChoice, target: Metre): boolean {
  const [da, db] = [Math.abs(a.gap - target), Math.abs(b.gap - target)];
  return Math.abs(da - db) > LAST_BITS ? da < db : sum(a.counts) < sum(b.counts);
}

/**
 * What leaves or shims that go in together prove: the total is at least their sum. Two, each at the limit for one side,
 * that fit together prove the total too large, whichever side the part was held to (common practice, no source; the
 * proof is that nothing goes into less room than it takes).
 */
export const leastTotal = (fitted: readonly Metre[]): Metre => metre(fitted.reduce((s, t) => s + t, 0));

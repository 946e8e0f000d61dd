import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Term, Uncertain } from './uncertain.ts';

export interface Trials {
  readonly trials: number;
  /** The same seed gives the same answer. */
  readonly seed: number;
}

export interface Spread {
  readonly mean: number;
  readonly u: number;
  /** The value below which a share p of the trials fell. */
  readonly quantile: (p: number) => number;
  /** Trials in which the function had no finite value; they are left out, and said. */
  readonly lost: number;
}

export type Draw = () => number;

/**
 * Propagation of distributions: every source is drawn once a trial, whatever the number of quantities that share it.
 * A normal term with finite degrees of freedom is drawn as a scaled and shifted t.
 *
 * @source jcgm-101 clause 7; 6.4.9.2 for the t
 */
export function monteCarlo(
  f: (x: readonly number[]) => number,
  inputs: readonly Uncertain[],
  { trials, seed }: Trials,
): Spread {
  const random = xoroshiro128plus(seed);
  const uniform: Draw = () => uniformFloat64(random);
  const normal = normalDraws(uniform);
  const sources = new Map<string, { readonly index: number; readonly draw: Draw }>();
  for (const { terms } of inputs)
    for (const t of terms)
      if (!sources.has(t.source))
        sources.set(t.source, { index: sources.size, draw: standardDraw(t, uniform, normal) });
  const draws = [...sources.values()].map((s) => s.draw);
  const weighted = inputs.map((q) => ({
    value: q.value,
    terms: q.terms.map((t) => [sources.get(t.source)?.index ?? 0, t.u] as const),
  }));

  const results = new Float64Array(trials);
  const deviates = new Float64Array(draws.length);
  let kept = 0;
  for (let trial = 0; trial < trials; trial++) {
    for (let s = 0; s < draws.length; s++) deviates[s] = draws[s]?.() ?? 0;
    const x = weighted.map((q) => q.terms.reduce((sum, [s, u]) => sum + u * (deviates[s] ?? 0), q.value));
    const y = f(x);
    if (Number.isFinite(y)) results[kept++] = y;
  }
  if (kept < 2) throw new RangeError(`the function had a finite value in ${kept} of ${trials} trials`);
  return spreadOf(results.subarray(0, kept), trials - kept);
}

/** @param results  of the trials kept, sorted in place; two at least */
export function spreadOf(results: Float64Array, lost: number): Spread {
  results.sort();
  const n = results.length;
  const first = results[0] ?? 0;
  const mean = first + results.reduce((s, y) => s + (y - first), 0) / n;
  const u = Math.sqrt(results.reduce((s, y) => s + (y - mean) ** 2, 0) / (n - 1));
  const quantile = (p: number): number => {
    const place = Math.min(Math.max(p, 0), 1) * (n - 1);
    const below = Math.floor(place);
    const low = results[below] ?? 0;
    return low + (place - below) * ((results[below + 1] ?? low) - low);
  };
  return { mean, u, quantile, lost };
}

/** Deviates of mean 0 and, but for the t, of unit standard deviation. */
export function standardDraw({ shape, dof }: Term, uniform: Draw, normal: Draw): Draw {
  switch (shape) {
    case 'rectangular':
      return () => Math.sqrt(3) * (2 * uniform() - 1);
    case 'triangular':
      return () => Math.sqrt(6) * (uniform() + uniform() - 1);
    case 'arcsine':
      return () => Math.SQRT2 * Math.sin(2 * Math.PI * uniform());
    case 'normal':
      return dof === Number.POSITIVE_INFINITY
        ? normal
        : () => normal() / Math.sqrt((2 * gammaDraw(dof / 2, uniform, normal)) / dof);
  }
}

/** Two normal deviates from two uniform ones (Box and Muller). */
export function normalDraws(uniform: Draw): Draw {
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const z = spare;
      spare = undefined;
      return z;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
}

/** A gamma deviate by Marsaglia and Tsang's rejection; below shape 1 from the next shape up. */
function gammaDraw(shape: number, uniform: Draw, normal: Draw): number {
  if (shape < 1) return gammaDraw(shape + 1, uniform, normal) * (1 - uniform()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

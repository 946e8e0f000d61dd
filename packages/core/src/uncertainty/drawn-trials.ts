import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { type Draw, normalDraws, standardDraw, type Trials } from './monte-carlo.ts';
import type { Term, Uncertain } from './uncertain.ts';

export interface DrawnTrials {
  /** Finite results in the order drawn. */
  readonly kept: Float64Array;
  readonly lost: number;
}

/** Trials drawn at once: their deviates stay in the nearest memory. */
const BLOCK = 512;
const PER_BIT = 2 ** -32;

/**
 * The trials of `monteCarlo` for many of them: deviates are drawn source by source, a block at a time, and the inputs
 * are put together in one array that is used again. Each source is drawn once a trial, whoever shares it.
 *
 * @param f  handed the same array each time; must not keep it
 */
export function drawnTrials(
  f: (x: Float64Array) => number,
  inputs: readonly Uncertain[],
  { trials, seed }: Trials,
): DrawnTrials {
  const random = xoroshiro128plus(seed);
  const uniform: Draw = () => ((random.next() >>> 0) + 0.5) * PER_BIT;
  const normal = normalDraws(uniform);
  const index = new Map<string, number>();
  const fills: ((into: Float64Array, count: number) => void)[] = [];
  for (const { terms } of inputs)
    for (const one of terms)
      if (!index.has(one.source)) {
        index.set(one.source, index.size);
        fills.push(filledWith(one, uniform, normal));
      }
  const deviates = fills.map(() => new Float64Array(BLOCK));
  const values = Float64Array.from(inputs, ({ value }) => value);
  const [owners, sources, weights] = weightsOf(inputs, index);
  const x = new Float64Array(inputs.length);
  const kept = new Float64Array(trials);
  let count = 0;
  for (let done = 0; done < trials; done += BLOCK) {
    const here = Math.min(BLOCK, trials - done);
    for (let s = 0; s < fills.length; s++) fills[s]!(deviates[s]!, here);
    for (let t = 0; t < here; t++) {
      x.set(values);
      for (let w = 0; w < weights.length; w++)
        x[owners[w]!] = x[owners[w]!]! + weights[w]! * deviates[sources[w]!]![t]!;
      const y = f(x);
      if (Number.isFinite(y)) kept[count++] = y;
    }
  }
  return { kept: kept.subarray(0, count), lost: trials - count };
}

/** Which input each signed weight belongs to, and of which source it is. */
function weightsOf(
  inputs: readonly Uncertain[],
  index: ReadonlyMap<string, number>,
): readonly [Int32Array, Int32Array, Float64Array] {
  const flat = inputs.flatMap(({ terms }, i) =>
    terms.map(({ source, u }) => [i, index.get(source)!, u] as const),
  );
  return [
    Int32Array.from(flat, ([owner]) => owner),
    Int32Array.from(flat, ([, source]) => source),
    Float64Array.from(flat, ([, , u]) => u),
  ];
}

/** The commonest two laws without a call for each deviate. */
function filledWith(one: Term, uniform: Draw, normal: Draw): (into: Float64Array, count: number) => void {
  if (one.shape === 'rectangular') {
    const width = 2 * Math.sqrt(3);
    return (into, count) => {
      for (let t = 0; t < count; t++) into[t] = width * (uniform() - 0.5);
    };
  }
  if (one.shape === 'normal' && one.dof === Number.POSITIVE_INFINITY)
    return (into, count) => {
      // Box and Muller, both deviates of a pair kept; a block is even but for the last one, which drops one.
      for (let t = 0; t < count; t += 2) {
        const radius = Math.sqrt(-2 * Math.log(uniform()));
        const angle = 2 * Math.PI * uniform();
        into[t] = radius * Math.cos(angle);
        if (t + 1 < count) into[t + 1] = radius * Math.sin(angle);
      }
    };
  const draw = standardDraw(one, uniform, normal);
  return (into, count) => {
    for (let t = 0; t < count; t++) into[t] = draw();
  };
}

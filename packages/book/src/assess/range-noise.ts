import { linear, standardUncertainty, type Uncertain } from '@fettle/core';
import type { Operand } from './operand.ts';

/** How wide greatest less least reads where there is nothing to be found. */
export interface Noise {
  readonly count: number;
  /** The mean of greatest less least of so many readings of one and the same size [SI]. */
  readonly mean: number;
}

/**
 * d₂(n): the mean range of n independent standard normal readings, from two on; to three figures.
 *
 * @source tippett-1925
 */
const MEAN_RANGE = [
  1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.97, 3.078, 3.173, 3.258, 3.336, 3.407, 3.472, 3.532,
];

/**
 * Greatest less least takes up the errors of the readings with it: of n readings of one true size it shows d₂(n) s on
 * average, with s what each reading is off by for itself. What is common to all of them drops out.
 *
 * @returns undefined where not all are numbers, or there are fewer than two
 */
export function rangeNoise(operands: readonly Operand[]): Noise | undefined {
  const all = operands.flatMap((operand) => (operand.kind === 'value' ? [operand.q] : []));
  const factor = MEAN_RANGE[Math.min(all.length, MEAN_RANGE.length + 1) - 2];
  if (all.length < operands.length || factor === undefined) return undefined;
  return { count: all.length, mean: factor * Math.sqrt(meanVariance(all) / 2) };
}

/** Of the difference between neighbours in order, which stand for all pairs: as a rule all are alike. */
function meanVariance(all: readonly Uncertain[]): number {
  const variances = all.map((of, i) => {
    const next = all[(i + 1) % all.length]!;
    return (
      standardUncertainty(
        linear([
          { factor: 1, of },
          { factor: -1, of: next },
        ]),
      ) ** 2
    );
  });
  return variances.reduce((sum, one) => sum + one, 0) / variances.length;
}

// Six sizes with limits, a hundred thousand trials: worst case, root-sum-square and drawn. Budget: 100 ms.
import { monteCarlo, stackUp, toleranceTerm } from '@fettle/core';
import { compared } from './side-by-side.mjs';

const RUN = { trials: 100_000, seed: 1 };
const BUDGET = 100;

/** Block, throw, rod, piston, gasket, and a deposit: a squish with one term that multiplies. */
const LIMITS = [
  [11.753, 11.757],
  [2.234, 2.236],
  [7.749, 7.751],
  [1.749, 1.751],
  [0.048, 0.052],
  [0.98, 1.02],
];
const squish = (x) => x[0] - x[1] - x[2] - x[3] + x[4] * x[5];

export async function stacking() {
  for (const shape of ['rectangular', 'normal']) {
    const terms = LIMITS.map(([lower, upper], i) => toleranceTerm(`term ${i}`, { lower, upper }, shape));
    const inputs = terms.map(({ q }) => q);
    const plain = monteCarlo(squish, inputs, RUN);
    const found = stackUp(terms, squish, RUN);
    if (Math.abs(plain.u / found.spread.u - 1) > 0.02) throw new Error('the two ways disagree');
    await compared(
      `A stack of 6 terms, ${RUN.trials} trials, ${shape} (budget ${BUDGET} ms)`,
      {
        'plain: a new array of inputs for each trial, drawing alone': () => monteCarlo(squish, inputs, RUN),
        'in blocks, with worst case, shares and root-sum-square': () => stackUp(terms, squish, RUN),
      },
      { rounds: 7 },
    );
  }
}

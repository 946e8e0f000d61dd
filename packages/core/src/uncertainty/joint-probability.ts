import { normalCdf, normalQuantile } from './normal.ts';
import { studentCdf, wholeDof } from './student.ts';
import { covariance, effectiveDof, standardUncertainty, type Uncertain } from './uncertain.ts';

export interface Between {
  readonly lower?: number;
  readonly upper?: number;
}

/** Points of the integration: for two quantities a smooth curve, for more a lattice. */
const POINTS = { two: 80, more: 2000 } as const;
/** Limits that all but surely hold are left aside: together they could take no more than this away. */
const SURE = 1e-6;
/** Under this share of its own variance a quantity holds nothing that those before it do not settle. */
const DEPENDENT = 1e-10;
const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37] as const;

const clamped = (p: number): number => Math.min(Math.max(p, 1e-15), 1 - 1e-15);

/**
 * Probability that normally distributed quantities are all within their limits at once, what they have in common
 * counted: with x = μ + L y, y independent and L the Cholesky factor of the covariances,
 *
 *     P = ∫ Π [Φ(b_i(y)) − Φ(a_i(y))]
 *
 * one dimension fewer than there are quantities. Two cost an integral along a line, more a lattice of points.
 * Where u has few degrees of freedom a limit is put where a normal would be exceeded as seldom as Student's t is there:
 * each quantity alone then has its own t, and what they have in common is as for normal ones, which is a choice.
 *
 * Accurate to about 0.0001 for two, 0.001 for more, and to 1/2000 where one quantity settles another.
 *
 * @param points  of the lattice for more than two; fewer are quicker and coarser
 *
 * @source genz-1992 for the separation of variables
 */
export function jointProbability(
  quantities: readonly Uncertain[],
  limits: readonly Between[],
  points: number = POINTS.more,
): number {
  const drawn: { q: Uncertain; u: number; from: number; to: number; alone: number }[] = [];
  for (const [i, q] of quantities.entries()) {
    const limit = limits[i] ?? {};
    const u = standardUncertainty(q);
    if (u > 0) {
      const dof = wholeDof(effectiveDof(q));
      const from = limit.lower === undefined ? -Infinity : deviate((limit.lower - q.value) / u, dof);
      const to = limit.upper === undefined ? Infinity : deviate((limit.upper - q.value) / u, dof);
      drawn.push({ q, u, from, to, alone: Math.max(0, normalCdf(to) - normalCdf(from)) });
    } else if (q.value < (limit.lower ?? q.value) || q.value > (limit.upper ?? q.value)) return 0;
  }
  // The least likely first: the rest then varies least along the points.
  drawn.sort((a, b) => a.alone - b.alone);
  while (drawn.length > 1 && 1 - drawn.at(-1)!.alone < SURE / quantities.length) drawn.pop();
  const [first] = drawn;
  if (!first) return 1;
  if (drawn.length === 1) return first.alone;
  const factor = choleskyOf(
    drawn.map((a) => drawn.map((b) => (a === b ? 1 : covariance(a.q, b.q) / (a.u * b.u)))),
  );
  const degenerate = factor.some((row, i) => row[i] === 0);
  const many = drawn.length === 2 && !degenerate ? POINTS.two : points;
  const from = drawn.map((one) => one.from);
  const to = drawn.map((one) => one.to);
  const y = new Array<number>(drawn.length).fill(0);
  let sum = 0;
  for (let k = 0; k < many; k++) {
    let product = 1;
    for (let i = 0; i < drawn.length && product > 0; i++) {
      const row = factor[i]!;
      let moved = 0;
      for (let j = 0; j < i; j++) moved += row[j]! * y[j]!;
      const own = row[i]!;
      if (own === 0) {
        if (moved < from[i]! || moved > to[i]!) product = 0;
        continue;
      }
      const low = normalCdf((from[i]! - moved) / own);
      const high = normalCdf((to[i]! - moved) / own);
      product *= Math.max(0, high - low);
      if (i < drawn.length - 1) y[i] = normalQuantile(clamped(low + coordinate(k, i, many) * (high - low)));
    }
    sum += product;
  }
  return Math.min(1, sum / many);
}

/** Evenly along the first axis, along the others by the fractions of roots of primes. */
function coordinate(k: number, axis: number, points: number): number {
  if (axis === 0) return (k + 0.5) / points;
  const step = Math.sqrt(PRIMES[(axis - 1) % PRIMES.length]!);
  return ((k + 1) * step) % 1;
}

/** The normal deviate that is exceeded as seldom as t is. */
function deviate(t: number, dof: number): number {
  if (dof === Number.POSITIVE_INFINITY) return t;
  return Math.sign(t) * -normalQuantile(clamped(studentCdf(-Math.abs(t), dof)));
}

/** Lower triangle with L Lᵀ = the correlations; a row that the ones before it settle ends in 0. */
function choleskyOf(matrix: readonly (readonly number[])[]): number[][] {
  const factor = matrix.map((row) => row.map(() => 0));
  for (let i = 0; i < matrix.length; i++)
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= factor[i]![k]! * factor[j]![k]!;
      if (i === j) factor[i]![i] = rest > DEPENDENT ? Math.sqrt(rest) : 0;
      else factor[i]![j] = factor[j]![j] === 0 ? 0 : rest / factor[j]![j]!;
    }
  return factor;
}

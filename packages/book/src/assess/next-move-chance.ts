import {
  estimateOf,
  linear,
  normalCdf,
  pooled,
  standardUncertainty,
  studentQuantile,
  type Uncertain,
} from '@fettle/core';
import type { LimitSetName, Limits } from './limits.ts';
import { type Operand, valued } from './operand.ts';
import { type Answer, verdictOf } from './verdict.ts';

/** How likely one more reading leads to a verdict, before it is taken. */
export interface Chance {
  readonly in: number;
  readonly out: number;
  readonly decided: number;
}

/** What is judged, as far as it is known before the reading. */
export interface Undecided {
  /** Every number that speaks of it. */
  readonly numbers: readonly Uncertain[];
  readonly cut?: Operand & { kind: 'interval' };
  readonly set: LimitSetName;
  readonly limits: Limits;
  /** Share of wrong proofs accepted, where several places share what is accepted for all; `RISK` when absent. */
  readonly risk?: number;
}

/** How far from what is expected a reading is thought of, in standard deviations, and how finely it is looked through. */
const REACH = 6;
const STEPS = 120;
const HALVINGS = 20;

/**
 * The chance that a further reading decides, over what is believed now.
 *
 *     y = m + z √D,  D = u² + r² − 2 cov,  z standard normal
 *     chance = Σ over the stretches of z in which [what is known, and y] are in or out:  Φ(z₂) − Φ(z₁)
 *
 * m and u are what is known pooled, r the doubt of the reading, cov what they have in common. The verdict at each y is
 * the program's own, consistency test and all; only the ends of the stretches are sought, by halving. Where u and r
 * are themselves estimates from a few readings, z is put in the place of the t that is exceeded as seldom:
 * y = m + t(Φ(z); ν) √D, with ν the effective degrees of freedom of the difference.
 *
 * @param next  the reading's terms about what is judged; its value does not count
 * @source the preposterior of jcgm-106 7 with jcgm-100 5.2, and G.4.1 for ν; no simulation
 */
export function chanceOfDeciding(undecided: Undecided, next: Uncertain): Chance {
  const { numbers, cut, set, limits, risk } = undecided;
  if (numbers.length === 0) return { in: 0, out: 0, decided: 0 };
  const known = pooled(numbers).value;
  const apart = linear([
    { factor: 1, of: next },
    { factor: -1, of: known },
  ]);
  const spread = standardUncertainty(apart);
  const { dof = Number.POSITIVE_INFINITY } = estimateOf(apart);
  const answer = (q: Uncertain) =>
    verdictOf(valued(q), undefined, set, limits, risk)?.verdict ?? 'cannot-tell';
  const heard = numbers.map(answer);
  const at = (z: number) => {
    const reading = { ...next, value: known.value + asFarOut(z, dof) * spread };
    const { value, consistent } = pooled([...numbers, reading]);
    const together = verdictOf(valued(value), cut, set, limits, risk)?.verdict ?? 'cannot-tell';
    if (consistent) return together;
    return [...heard, answer(reading)].every((each) => each === together) ? together : 'cannot-tell';
  };
  return chanceOver(at, -REACH, REACH, normalCdf);
}

/** The t that is exceeded as seldom as z is of a normal; its lower tail is the accurate one. */
const asFarOut = (z: number, dof: number): number =>
  dof === Number.POSITIVE_INFINITY || z === 0
    ? z
    : Math.sign(z) * -studentQuantile(normalCdf(-Math.abs(z)), dof);

/**
 * The same where only leaves were tried: what is read then may be anything they have left, with the reading's doubt.
 * The gap is taken as evenly likely between a leaf that goes, a, and one that does not, b, each with its own doubt, so
 * that what is read has the distribution
 *
 *     F(y) = [ s_a H((y − a)/s_a) − s_b H((y − b)/s_b) ] / (b − a),  H(z) = z Φ(z) + φ(z),  s² = u_edge² + r²
 *
 * @param next  the reading's terms about what is judged; its value does not count
 * @returns nothing for a bracket open at one end: no chance can be said of a gap nobody knows the end of
 * @source the preposterior of jcgm-106 7 over the rectangle of jcgm-100 4.3.7; no simulation
 */
export function chanceWithin(
  bracket: Operand & { kind: 'interval' },
  set: LimitSetName,
  limits: Limits,
  next: Uncertain,
): Chance | undefined {
  const { lower, upper } = bracket;
  if (!lower || !upper || !(upper.value > lower.value)) return undefined;
  const r = standardUncertainty(next);
  const [sa, sb] = [lower, upper].map((edge) => Math.hypot(standardUncertainty(edge), r)) as [number, number];
  if (!(sa > 0 && sb > 0)) return undefined;
  const area = (z: number): number => z * normalCdf(z) + Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const cdf = (y: number): number =>
    (sa * area((y - lower.value) / sa) - sb * area((y - upper.value) / sb)) / (upper.value - lower.value);
  const at = (y: number): Answer =>
    verdictOf(valued({ ...next, value: y }), bracket, set, limits)?.verdict ?? 'cannot-tell';
  return chanceOver(at, lower.value - REACH * sa, upper.value + REACH * sb, cdf);
}

/** Probability of each verdict, the stretches of each found by halving. */
function chanceOver(
  at: (x: number) => Answer,
  first: number,
  last: number,
  cdf: (x: number) => number,
): Chance {
  const sums = { in: 0, out: 0, 'cannot-tell': 0 };
  let from = first;
  let now = at(from);
  let before = from;
  for (let i = 1; i <= STEPS; i++) {
    const x = first + ((last - first) * i) / STEPS;
    const then = at(x);
    if (then !== now) {
      let [low, high] = [before, x];
      for (let k = 0; k < HALVINGS; k++) {
        const half = (low + high) / 2;
        if (at(half) === now) low = half;
        else high = half;
      }
      sums[now] += cdf(high) - cdf(from);
      from = high;
      now = then;
    }
    before = x;
  }
  sums[now] += cdf(last) - cdf(from);
  return { in: sums.in, out: sums.out, decided: sums.in + sums.out };
}

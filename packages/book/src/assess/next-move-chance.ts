import { covariance, normalCdf, pooled, standardUncertainty, type Uncertain } from '@fettle/core';
import type { LimitSetName, Limits } from './limits.ts';
import { type Operand, valued } from './operand.ts';
import { verdictOf } from './verdict.ts';

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
  /** Worked out from others: where these disagree the figure is judged by the wider doubt, not by each alone. */
  readonly derived: boolean;
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
 * the program's own, consistency test and all; only the ends of the stretches are sought, by halving.
 *
 * @param next  the reading's terms about what is judged; its value does not count
 * @source the preposterior of jcgm-106 7 with jcgm-100 5.2; no simulation
 */
export function chanceOfDeciding(undecided: Undecided, next: Uncertain): Chance {
  const { numbers, cut, set, limits, derived } = undecided;
  if (numbers.length === 0) return { in: 0, out: 0, decided: 0 };
  const known = pooled(numbers).value;
  const variance =
    standardUncertainty(known) ** 2 + standardUncertainty(next) ** 2 - 2 * covariance(known, next);
  const spread = Math.sqrt(Math.max(variance, 0));
  const answer = (q: Uncertain) => verdictOf(valued(q), undefined, set, limits)?.verdict ?? 'cannot-tell';
  const heard = numbers.map(answer);
  const at = (z: number) => {
    const reading = { ...next, value: known.value + z * spread };
    const { value, consistent } = pooled([...numbers, reading]);
    const together = verdictOf(valued(value), cut, set, limits)?.verdict ?? 'cannot-tell';
    if (consistent || derived) return together;
    return [...heard, answer(reading)].every((each) => each === together) ? together : 'cannot-tell';
  };
  const sums = stretches(at);
  return { ...sums, decided: sums.in + sums.out };
}

/** Probability of each verdict with z standard normal. */
function stretches(at: (z: number) => 'in' | 'out' | 'cannot-tell'): { in: number; out: number } {
  const sums = { in: 0, out: 0, 'cannot-tell': 0 };
  let from = -REACH;
  let now = at(from);
  let before = from;
  for (let i = 1; i <= STEPS; i++) {
    const z = -REACH + (2 * REACH * i) / STEPS;
    const then = at(z);
    if (then !== now) {
      let [low, high] = [before, z];
      for (let k = 0; k < HALVINGS; k++) {
        const half = (low + high) / 2;
        if (at(half) === now) low = half;
        else high = half;
      }
      sums[now] += normalCdf(high) - normalCdf(from);
      from = high;
      now = then;
    }
    before = z;
  }
  sums[now] += normalCdf(REACH) - normalCdf(from);
  return { in: sums.in, out: sums.out };
}

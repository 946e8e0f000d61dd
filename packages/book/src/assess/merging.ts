import { linear, pooled, standardUncertainty, type Uncertain } from '@fettle/core';
import { interval, MISSING, type Operand, valued } from './operand.ts';
import type { Spot } from './spot.ts';

/** One way of knowing a characteristic: an instrument's readings, a leaf, or a relation. */
export interface Witness {
  readonly by: 'readings' | 'leaves' | 'relation';
  /** The instrument, or the relation's inputs in words. */
  readonly with: string;
  readonly measurand: string;
  readonly operand: Operand;
  /** False when its own leaf answers contradict each other, or its readings scatter wider than they should. */
  readonly consistent: boolean;
  /** Inputs of it whose own witnesses disagree. */
  readonly disputes: readonly Spot[];
  readonly entries: readonly string[];
}

/** All witnesses of one thing together. */
interface Merged {
  /** A number where there is one, else an interval, else missing. */
  readonly operand: Operand;
  /** Leaves that cut the number. */
  readonly cut?: Operand & { kind: 'interval' };
  /** False when witnesses that should agree do not. */
  readonly consistent: boolean;
}

const byValue = (a: Uncertain, b: Uncertain): number => a.value - b.value;

/**
 * Several leaf answers to one question: the largest that goes and the smallest that stops.
 * Answers that contradict each other, a leaf that goes where a thinner one stops, leave all that any of them left.
 */
export function narrowest(read: readonly Operand[]): { operand: Operand; consistent: boolean } {
  const answers = read.filter((operand) => operand.kind === 'interval');
  const lowers = answers.flatMap(({ lower }) => lower ?? []).sort(byValue);
  const uppers = answers.flatMap(({ upper }) => upper ?? []).sort(byValue);
  const [lower, upper] = [lowers.at(-1), uppers[0]];
  if (lower && upper && lower.value >= upper.value)
    return { operand: interval(lowers[0], uppers.at(-1)), consistent: false };
  return { operand: interval(lower, upper), consistent: true };
}

/**
 * Readings of one thing with one instrument: their mean, in which only each reading's own share of doubt averages out.
 * Readings that scatter wider than that share allows disagree, and are not averaged away.
 *
 * @param about  names the thing, so that one disagreement is not taken for another's
 */
export function repeatedly(
  read: readonly Operand[],
  about: string,
): { operand: Operand; consistent: boolean } {
  const numbers = read.flatMap((operand) => (operand.kind === 'value' ? [operand.q] : []));
  if (numbers.length === 0) return { operand: MISSING, consistent: true };
  const pool = pooled(numbers, `scatter:${about}`);
  return { operand: valued(pool.value), consistent: pool.consistent };
}

/**
 * All witnesses of one thing: numbers are pooled, leaves cut the pooled number and are never averaged into it.
 *
 * @param about  names the thing, so that one disagreement is not taken for another's
 */
export function merged(witnesses: readonly Witness[], about: string): Merged {
  const numbers = witnesses.flatMap(({ operand }) => (operand.kind === 'value' ? [operand.q] : []));
  const { operand: cut, consistent } = narrowest(witnesses.map(({ operand }) => operand));
  const leaves = cut.kind === 'interval' ? cut : undefined;
  const agreed = consistent && witnesses.every((witness) => witness.consistent);
  if (numbers.length === 0) return { operand: leaves ?? MISSING, consistent: agreed };
  const pool = pooled(numbers, `disagreement:${about}`);
  const agrees = leaves === undefined || near(pool.value, leaves);
  return {
    operand: valued(pool.value),
    ...(leaves && agrees && agreed && { cut: leaves }),
    consistent: pool.consistent && agrees && agreed,
  };
}

/** Whether a number lies within three standard uncertainties of an interval: farther off, one of the two is wrong. */
function near(q: Uncertain, leaves: { lower?: Uncertain; upper?: Uncertain }): boolean {
  const apart = (edge: Uncertain): number =>
    3 *
    standardUncertainty(
      linear([
        { factor: 1, of: q },
        { factor: -1, of: edge },
      ]),
    );
  return (
    (!leaves.lower || q.value > leaves.lower.value - apart(leaves.lower)) &&
    (!leaves.upper || q.value < leaves.upper.value + apart(leaves.upper))
  );
}

import { factorInPlace, logNormalDensity, unwhitenInPlace, whitenInPlace } from '@fettle/core';
import type { Hypotheses, Hypothesis, Observable } from './hypotheses.ts';

/** The hypotheses after the readings. */
export interface Weighed {
  /** Probability of each hypothesis. */
  readonly weights: Float64Array;
  /** Probability of each family, in the order of the families. */
  readonly families: readonly number[];
  /** ln of how well each family foretold the readings, over its whole spread of severity. */
  readonly evidence: readonly number[];
  /** Squared distance of the readings from the best hypothesis, in its own deviations. */
  readonly nearest: number;
}

/** A hypothesis with less than this of its family's probability is left out of averages. */
const NEGLIGIBLE = 1e-7;

/** Joint doubt of some observables under one hypothesis [their units, squared], row by row. */
export function jointDoubt(
  { observables, measured }: Hypotheses,
  { predicted, slopes, gauge }: Hypothesis,
  indices: readonly number[],
  read: (index: number) => number,
): Float64Array {
  const n = indices.length;
  const total = observables.length;
  const doubt = new Float64Array(n * n);
  const u = indices.map((i) => observables[i]!.u(read(i)));
  for (let a = 0; a < n; a++) {
    const i = indices[a]!;
    const one = observables[i]!;
    for (let b = 0; b <= a; b++) {
      const j = indices[b]!;
      let relative = measured[i * total + j]!;
      for (const slope of slopes) relative += slope[i]! * slope[j]!;
      if (a === b) relative += one.own * one.own;
      let sum = relative * predicted[i]! * predicted[j]!;
      sum += gaugeDoubt(one, observables[j]!, a === b, u[a]!, u[b]!);
      if (gauge && one.instrument === gauge.instrument && observables[j]!.instrument === gauge.instrument)
        sum += gauge.offset ** 2 + gauge.scale ** 2 * predicted[i]! * predicted[j]!;
      doubt[a * n + b] = sum;
      doubt[b * n + a] = sum;
    }
  }
  return doubt;
}

/** Readings of one gauge share a part of its error; each has the rest for itself. */
function gaugeDoubt(one: Observable, other: Observable, same: boolean, uOne: number, uOther: number): number {
  if (same) return uOne * uOne;
  if (one.instrument === undefined || one.instrument !== other.instrument) return 0;
  return Math.sqrt(one.common * other.common) * uOne * uOther;
}

/** What a squared distance costs: half of it, or less far out where tails are heavy (a t of so many degrees). */
const tailed = (squared: number, n: number, degrees: number): number =>
  Number.isFinite(degrees) ? ((degrees + n) / 2) * Math.log1p(squared / degrees) : squared / 2;

/**
 * Bayes' theorem over all hypotheses at once.
 *
 * @param values   what was read, one for each of `indices`
 * @param indices  of the observables that were read
 * @source definition
 */
export function weighed(
  hypotheses: Hypotheses,
  values: readonly number[],
  indices: readonly number[] = values.map((_, i) => i),
): Weighed {
  const { all, families, tails } = hypotheses;
  const n = values.length;
  const read = new Map(indices.map((index, k) => [index, values[k]!]));
  const logs = new Float64Array(all.length);
  let nearest = Number.POSITIVE_INFINITY;
  all.forEach((hypothesis, h) => {
    const l = jointDoubt(hypotheses, hypothesis, indices, (i) => read.get(i)!);
    const r = Float64Array.from(values, (value, k) => value - hypothesis.predicted[indices[k]!]!);
    // A gauge of no known error leaves nothing to go by; positive by construction otherwise.
    if (!factorInPlace(l, n)) {
      logs[h] = Number.NEGATIVE_INFINITY;
      return;
    }
    whitenInPlace(l, r, n);
    const distance = r.reduce((sum, x) => sum + x * x, 0);
    logs[h] = logNormalDensity(l, r, n) + distance / 2 - tailed(distance, n, tails);
    if (families[hypothesis.family]!.kind !== 'gauge') nearest = Math.min(nearest, distance);
  });
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const sums = families.map(() => 0);
  const weights = Float64Array.from(all, ({ prior, family }, h) => {
    const weight = prior * Math.exp(logs[h]! - most);
    sums[family]! += weight;
    return weight;
  });
  const total = sums.reduce((a, b) => a + b, 0);
  return {
    weights: weights.map((weight) => weight / total),
    families: sums.map((sum) => sum / total),
    evidence: sums.map((sum, f) => Math.log(sum / families[f]!.prior) + most),
    nearest: n === 0 ? 0 : nearest,
  };
}

/** What of the readings' doubt is the gauge's own, row by row [Pa²]. */
export function gaugeCovariance(observables: readonly Observable[], values: readonly number[]): Float64Array {
  const n = values.length;
  const doubt = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const [one, other] = [observables[i]!, observables[j]!];
      doubt[i * n + j] = gaugeDoubt(one, other, i === j, one.u(values[i]!), other.u(values[j]!));
    }
  return doubt;
}

/**
 * What each family would have a perfect gauge show, with everything else that is in doubt set as the readings want
 * it: the reading less the share of the misfit that falls to the gauge, G S⁻¹ (y − mean).
 */
export function fittedReadings(
  hypotheses: Hypotheses,
  { weights, families }: Weighed,
  values: readonly number[],
): Float64Array[] {
  const n = values.length;
  const indices = [...values.keys()];
  const gauge = gaugeCovariance(hypotheses.observables, values);
  const fitted = families.map(() => new Float64Array(n));
  hypotheses.all.forEach((hypothesis, h) => {
    const share = families[hypothesis.family]! > 0 ? weights[h]! / families[hypothesis.family]! : 0;
    if (share < NEGLIGIBLE) return;
    const l = jointDoubt(hypotheses, hypothesis, indices, (i) => values[i]!);
    const r = Float64Array.from(values, (value, i) => value - hypothesis.predicted[i]!);
    if (!factorInPlace(l, n)) return;
    whitenInPlace(l, r, n);
    unwhitenInPlace(l, r, n);
    for (let i = 0; i < n; i++) {
      let error = 0;
      for (let j = 0; j < n; j++) error += gauge[i * n + j]! * r[j]!;
      fitted[hypothesis.family]![i]! += share * (values[i]! - error);
    }
  });
  return fitted;
}

import { factorInPlace, whitenInPlace } from '@fettle/core';
import type { Hypotheses } from './hypotheses.ts';
import { gaugeCovariance, type Weighed } from './posterior.ts';

/**
 * Readings that move the odds between two faults by less than this are no strong evidence of which it is. Part of
 * that factor is only how widely each fault's severity is spread beforehand, which is assumed: the more reason not to
 * make much of it.
 * @source kass-raftery-1995
 */
export const UNTOLD = 10;
/** Readings fitted nearer to each other than so many of the gauge's own deviations are one to the gauge. */
export const RESOLVED = 2;
/** A family less likely than this is not worth being told from others. */
const WORTH_NAMING = 0.02;

/** Families that the readings cannot tell apart, likeliest first, by index; only sets of two or more. */
export function notToldApart(
  hypotheses: Hypotheses,
  after: Weighed,
  fitted: readonly Float64Array[],
  values: readonly number[],
): number[][] {
  const { families, evidence } = after;
  const n = values.length;
  if (n === 0) return [];
  const l = gaugeCovariance(hypotheses.observables, values);
  // A hair is added: were all of the error common, differences between readings would be known exactly.
  for (let i = 0; i < n; i++) l[i * n + i]! *= 1 + 1e-6;
  const factored = factorInPlace(l, n);
  const separation = (a: number, b: number): number => {
    if (!factored) return 0;
    const between = fitted[a]!.map((x, i) => x - fitted[b]![i]!);
    whitenInPlace(l, between, n);
    return Math.sqrt(between.reduce((sum, x) => sum + x * x, 0));
  };
  const alike = (a: number, b: number): boolean =>
    Math.abs(evidence[a]! - evidence[b]!) <= Math.log(UNTOLD) && separation(a, b) <= RESOLVED;
  const groups: number[][] = [];
  const named = families
    .map((_, f) => f)
    .filter((f) => families[f]! >= WORTH_NAMING)
    .sort((a, b) => families[b]! - families[a]!);
  for (const f of named) {
    const group = groups.find((one) => one.every((member) => alike(member, f)));
    if (group) group.push(f);
    else groups.push([f]);
  }
  return groups.filter((group) => group.length > 1);
}

import type { Shape } from './uncertain.ts';

export interface Repeated {
  readonly mean: number;
  /** Of one reading, n − 1 in the divisor. */
  readonly sd: number;
  /** Of the mean: sd/√n. */
  readonly u: number;
  readonly dof: number;
}

/**
 * Type A evaluation of independent repeated readings. It takes at least two: one reading has no spread.
 *
 * @source jcgm-100 4.2
 */
export function repeated(readings: readonly number[]): Repeated {
  const n = readings.length;
  if (n < 2) throw new RangeError(`a spread takes two readings, got ${n}`);
  const rough = readings.reduce((s, x) => s + x, 0) / n;
  // A second pass takes out what the first sum rounded away.
  const mean = rough + readings.reduce((s, x) => s + (x - rough), 0) / n;
  const sd = Math.sqrt(readings.reduce((s, x) => s + (x - mean) ** 2, 0) / (n - 1));
  return { mean, sd, u: sd / Math.sqrt(n), dof: n - 1 };
}

const DIVISORS: Readonly<Record<Exclude<Shape, 'normal'>, number>> = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  arcsine: Math.SQRT2,
};

/** Type B: u from the half-width of what is possible. @source jcgm-100 4.3.7, 4.3.9; jcgm-101 6.4.6 for arcsine */
export const fromHalfWidth = (halfWidth: number, shape: Exclude<Shape, 'normal'>): number =>
  halfWidth / DIVISORS[shape];

/** u from an indication that moves in steps: r/√12. @source jcgm-100 F.2.2.1 */
export const fromResolution = (step: number): number => step / Math.sqrt(12);

/** u from a certificate's U and its k. @source jcgm-100 4.3.3 */
export const fromExpanded = (U: number, k: number): number => U / k;

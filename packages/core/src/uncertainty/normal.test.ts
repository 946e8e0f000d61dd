import fc from 'fast-check';
import { expect, it } from 'vitest';
import { chiSquareAbove, incompleteBeta, logGamma } from './gamma.ts';
import { normalBetween, normalCdf, normalQuantile } from './normal.ts';
import { coverageFactor, studentCdf, studentQuantile } from './student.ts';

const close = (got: number, wanted: number, rel: number): void =>
  expect(Math.abs(got - wanted)).toBeLessThanOrEqual(rel * Math.abs(wanted));

it('the normal distribution agrees with printed values', () => {
  // Handbook of Mathematical Functions, table 26.1 (memory) and textbook tail values.
  close(normalCdf(1), 0.841344746068543, 1e-14);
  close(normalCdf(-2), 0.0227501319481792, 1e-13);
  close(normalCdf(-6), 9.86587645037698e-10, 1e-12);
  close(normalCdf(-10), 7.61985302416053e-24, 1e-12);
  close(normalQuantile(0.975), 1.95996398454005, 1e-13);
  close(normalQuantile(0.95), 1.64485362695147, 1e-13);
  close(normalQuantile(1e-9), -5.99780701500769, 1e-12);
  expect(normalCdf(-100)).toBe(0);
  expect(normalCdf(100)).toBe(1);
});

it('series and continued fraction meet where one hands over to the other', () => {
  close(normalCdf(-2.5000000001), normalCdf(-2.5), 1e-8);
  close(normalCdf(-2.5), 0.00620966532577613, 1e-13);
});

it('the quantile undoes the distribution, and far between two deviates nothing cancels', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-12, max: 0.5, noNaN: true }), (p) => {
      close(normalCdf(normalQuantile(p)), p, 1e-11);
    }),
  );
  close(normalBetween(8, 9), normalCdf(-8) - normalCdf(-9), 1e-12);
  expect(normalBetween(2, 1)).toBe(0);
});

it('gamma and beta satisfy their identities', () => {
  close(logGamma(0.5), 0.5 * Math.log(Math.PI), 1e-13);
  close(logGamma(11), Math.log(3628800), 1e-14);
  // I_x(1, b) = 1 - (1 - x)^b and I_x(a, 1) = x^a.
  close(incompleteBeta(0.3, 1, 4), 1 - 0.7 ** 4, 1e-13);
  close(incompleteBeta(0.9, 3, 1), 0.9 ** 3, 1e-13);
});

it('chi-square with two degrees is an exponential, and the printed 95 % points come back', () => {
  close(chiSquareAbove(3, 2), Math.exp(-1.5), 1e-13);
  close(chiSquareAbove(0.5, 2), Math.exp(-0.25), 1e-13);
  close(chiSquareAbove(3.841458820694124, 1), 0.05, 1e-11);
  close(chiSquareAbove(18.307038053275146, 10), 0.05, 1e-11);
});

it('Student has closed forms at one and two degrees of freedom', () => {
  for (const p of [0.6, 0.9, 0.975, 0.995, 0.99999]) {
    close(studentQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)), 1e-11);
    const a = 4 * p * (1 - p);
    close(studentQuantile(p, 2), 2 * (p - 0.5) * Math.sqrt(2 / a), 1e-11);
  }
});

it('Student agrees with the finite series at five degrees and with table G.2', () => {
  // The finite series for odd degrees (Handbook of Mathematical Functions 26.7.3) needs no incomplete beta.
  const theta = Math.atan(studentQuantile(0.975, 5) / Math.sqrt(5));
  const within =
    (2 / Math.PI) * (theta + Math.sin(theta) * Math.cos(theta) * (1 + (2 / 3) * Math.cos(theta) ** 2));
  close(within, 0.95, 1e-13);
  const g2: readonly (readonly [number, number, number])[] = [
    [1, 0.9545, 13.97],
    [2, 0.9973, 19.21],
    [3, 0.99, 5.84],
    [4, 0.9545, 2.87],
    [16, 0.99, 2.92],
    [50, 0.9973, 3.16],
  ];
  for (const [dof, level, printed] of g2)
    expect(Math.abs(coverageFactor(level, dof) - printed)).toBeLessThan(0.0051);
  expect(Math.abs(coverageFactor(0.9973, 1) - 235.8)).toBeLessThan(0.051);
});

it('Student joins its expansion for many degrees smoothly and ends in the normal', () => {
  close(studentQuantile(0.999, 1999.999), studentQuantile(0.999, 2000), 1e-9);
  close(studentQuantile(0.975, Number.POSITIVE_INFINITY), normalQuantile(0.975), 1e-15);
  expect(studentQuantile(0.5, 3)).toBe(0);
  expect(studentQuantile(0.025, 7)).toBe(-studentQuantile(0.975, 7));
  expect(() => studentQuantile(1, 3)).toThrow(RangeError);
});

it('a coverage factor goes by the whole part of the degrees of freedom', () => {
  expect(coverageFactor(0.99, 16.7)).toBe(coverageFactor(0.99, 16));
  expect(coverageFactor(0.99, 15.999999999999998)).toBe(coverageFactor(0.99, 16));
  expect(coverageFactor(0.95, 0.5)).toBeGreaterThan(coverageFactor(0.95, 1));
});

it('Student’s probability is that of closed forms for one and two degrees, and the quantile turned round', () => {
  for (const t of [-30, -1.5, 0, 0.2, 4]) {
    // One degree: ½ + arctan(t)/π; two: ½ + t / (2 √(2 + t²)). Both follow by integrating the density.
    close(studentCdf(t, 1), 0.5 + Math.atan(t) / Math.PI, 1e-10);
    close(studentCdf(t, 2), 0.5 + t / (2 * Math.sqrt(2 + t * t)), 1e-10);
  }
  for (const dof of [3, 7.5, 40, 1999, 2001, 99_999, 100_000])
    for (const p of [0.01, 0.3, 0.95]) close(studentCdf(studentQuantile(p, dof), dof), p, 1e-8);
  close(studentCdf(1.3, Number.POSITIVE_INFINITY), normalCdf(1.3), 1e-15);
  expect(() => studentCdf(1, 0)).toThrow(RangeError);
});

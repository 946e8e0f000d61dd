import fc from 'fast-check';
import { expect, it } from 'vitest';
import { monteCarlo } from '../uncertainty/monte-carlo.ts';
import { rectangularSumHalfInterval } from '../uncertainty/rectangular-sum.ts';
import { standardUncertainty, term, uncertain } from '../uncertainty/uncertain.ts';
import { type StackTerm, shareOutside, stackUp, toleranceTerm } from './stack-up.ts';

const RUN = { trials: 200_000, seed: 1 };
const add = (x: Float64Array): number => x.reduce((sum, xi) => sum + xi, 0);
const half = (p: (of: number) => number): number => (p(0.975) - p(0.025)) / 2;

it('a hole of 5.781 to 5.783 on a shaft of 5.778 to 5.780 leaves .001 to .005, ±.0014 by root-sum-square (TM 5-6115-400-35)', () => {
  const found = stackUp(
    [
      toleranceTerm('hole', { lower: 5.781, upper: 5.783 }),
      toleranceTerm('shaft', { lower: 5.778, upper: 5.78 }),
    ],
    ([hole, shaft]) => hole! - shaft!,
    RUN,
  );
  expect(found.worst.least).toBeCloseTo(0.001, 12);
  expect(found.worst.greatest).toBeCloseTo(0.005, 12);
  expect(found.value).toBeCloseTo(0.003, 12);
  expect(found.rootSumSquare).toBeCloseTo(0.00141421356237357, 12);
  // Two even rectangles make a triangle on ±.002: 2.5 % in each tail from .002 (1 − √.05) on.
  expect(half(found.spread.quantile)).toBeCloseTo(0.002 * (1 - Math.sqrt(0.05)), 5);
  expect(found.effects.map(({ share }) => share)).toEqual([expect.closeTo(0.5, 9), expect.closeTo(0.5, 9)]);
});

it('four rectangles of unit deviation hold 95 % within ±3.88, one ten times the others within ±17.0 (JCGM 101 9.2.3, 9.2.4)', () => {
  const stacked = (deviations: readonly number[]) =>
    stackUp(
      deviations.map((u, i) => toleranceTerm(`x${i}`, { lower: -Math.sqrt(3) * u, upper: Math.sqrt(3) * u })),
      add,
      { trials: 400_000, seed: 7 },
    );
  const alike = stacked([1, 1, 1, 1]);
  expect(Math.abs(half(alike.spread.quantile) - 3.88)).toBeLessThan(0.02);
  expect(alike.spread.u).toBeCloseTo(2, 1);
  const one = stacked([1, 1, 1, 10]);
  expect(Math.abs(half(one.spread.quantile) - 17.0158)).toBeLessThan(0.05);
  expect(one.spread.u).toBeCloseTo(10.1488915650922, 1);
  // 100 of 103 parts of the variance.
  expect(one.effects[3]!.share).toBeCloseTo(100 / 103, 9);
});

it('draws as the plain way does and as the exact sum of rectangles says', () => {
  const widths = [0.4, 1, 1.7, 0.2, 0.9, 0.6];
  const terms = widths.map((w, i) => toleranceTerm(`x${i}`, { lower: -w, upper: w }));
  const { spread } = stackUp(terms, add, RUN);
  const plain = monteCarlo(
    (x) => x.reduce((sum, xi) => sum + xi, 0),
    terms.map(({ q }) => q),
    { trials: 200_000, seed: 2 },
  );
  const exactly = rectangularSumHalfInterval(widths, 0.95);
  expect(Math.abs(half(spread.quantile) - exactly)).toBeLessThan(0.02);
  expect(Math.abs(half(plain.quantile) - exactly)).toBeLessThan(0.02);
});

it('a normal term takes its limits as three deviations and passes them once in 370', () => {
  const found = stackUp([toleranceTerm('x', { lower: -3, upper: 3 }, 'normal')], add, RUN);
  expect(found.spread.u).toBeCloseTo(1, 2);
  // Two tails beyond three deviations: .0026998.
  expect(Math.abs(shareOutside(found.drawn, { lower: -3, upper: 3 }) - 0.0027)).toBeLessThan(0.0006);
});

it('a triangular term stays inside and leans to the middle', () => {
  const found = stackUp([toleranceTerm('x', { lower: 0, upper: 2 }, 'triangular')], add, RUN);
  expect(found.drawn[0]!).toBeGreaterThanOrEqual(0);
  expect(found.drawn.at(-1)!).toBeLessThanOrEqual(2);
  expect(found.spread.u).toBeCloseTo(1 / Math.sqrt(6), 2);
  // Above 1.5 lies (½)²/2 = 1/8 of a triangle on 0 to 2.
  expect(Math.abs(shareOutside(found.drawn, { upper: 1.5 }) - 0.125)).toBeLessThan(0.004);
});

it('a source that two terms share is drawn once: a common error cancels in a difference', () => {
  const common = (value: number, own: string): StackTerm => ({
    name: own,
    q: uncertain(value, term('micrometer', 1), term(own, 0.1)),
    lower: value - 2,
    upper: value + 2,
  });
  const found = stackUp([common(10, 'bore'), common(7, 'piston')], ([a, b]) => a! - b!, RUN);
  expect(found.spread.u).toBeCloseTo(0.1 * Math.SQRT2, 2);
  expect(found.spread.mean).toBeCloseTo(3, 2);
  expect(found.effects.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
});

it('says how many trials had no value, and refuses a stack that has none at all', () => {
  const gap = ([x]: Float64Array): number => (x! > 0.6 && x! < 0.9 ? Number.NaN : x!);
  const found = stackUp([toleranceTerm('x', { lower: 0, upper: 1 })], gap, { trials: 10_000, seed: 3 });
  expect(found.drawn.length).toBe(10_000 - found.spread.lost);
  expect(Math.abs(found.spread.lost - 3000)).toBeLessThan(150);
  expect(() => stackUp([toleranceTerm('x', { lower: 0, upper: 1 })], () => Number.NaN, RUN)).toThrow(
    RangeError,
  );
});

it('the same seed gives the same, another seed another', () => {
  const terms = [
    toleranceTerm('x', { lower: 0, upper: 1 }),
    toleranceTerm('y', { lower: 0, upper: 1 }, 'normal'),
  ];
  const mean = (seed: number) => stackUp(terms, add, { trials: 1000, seed }).spread.mean;
  expect(mean(5)).toBe(mean(5));
  expect(mean(5)).not.toBe(mean(6));
});

it('of any linear stack the worst case is Σ |f| t/2, holds every drawn result, and the shares sum to one', () => {
  const one = fc.record({
    middle: fc.double({ min: -10, max: 10, noNaN: true }),
    half: fc.double({ min: 0.01, max: 2, noNaN: true }),
    factor: fc.oneof(
      fc.double({ min: 0.1, max: 3, noNaN: true }),
      fc.double({ min: -3, max: -0.1, noNaN: true }),
    ),
  });
  fc.assert(
    fc.property(fc.array(one, { minLength: 1, maxLength: 14 }), (given) => {
      const found = stackUp(
        given.map(({ middle, half: h }, i) =>
          toleranceTerm(`x${i}`, { lower: middle - h, upper: middle + h }),
        ),
        (x) => given.reduce((sum, { factor }, i) => sum + factor * x[i]!, 0),
        { trials: 500, seed: 11 },
      );
      const reach = given.reduce((sum, { factor, half: h }) => sum + Math.abs(factor) * h, 0);
      const middle = given.reduce((sum, { factor, middle: m }) => sum + factor * m, 0);
      expect(found.worst.greatest).toBeCloseTo(middle + reach, 8);
      expect(found.worst.least).toBeCloseTo(middle - reach, 8);
      expect(found.rootSumSquare).toBeLessThanOrEqual(reach + 1e-9);
      expect(found.drawn[0]!).toBeGreaterThanOrEqual(found.worst.least - 1e-9);
      expect(found.drawn.at(-1)!).toBeLessThanOrEqual(found.worst.greatest + 1e-9);
      expect(found.effects.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    }),
    { numRuns: 60 },
  );
});

it('the deviation of the trials is that of the first-order law where the stack is linear', () => {
  const terms = [
    toleranceTerm('x', { lower: -1, upper: 1 }),
    toleranceTerm('y', { lower: -2, upper: 2 }, 'triangular'),
  ];
  const found = stackUp(terms, ([x, y]) => x! - 2 * y!, RUN);
  const expected = Math.hypot(standardUncertainty(terms[0]!.q), 2 * standardUncertainty(terms[1]!.q));
  expect(Math.abs(found.spread.u / expected - 1)).toBeLessThan(0.01);
});

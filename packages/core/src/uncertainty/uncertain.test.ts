import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fromExpanded, fromHalfWidth, fromResolution, repeated } from './evaluation.ts';
import { monteCarlo } from './monte-carlo.ts';
import {
  covariance,
  effectiveDof,
  exact,
  expanded,
  linear,
  propagated,
  standardUncertainty,
  term,
  uncertain,
} from './uncertain.ts';

const micrometer = term('micrometer', 2e-6);

it('a common error cancels in a taper and adds in a stack', () => {
  const top = uncertain(0.089, micrometer, term('touch at the top', 1e-6));
  const bottom = uncertain(0.0889, micrometer, term('touch at the bottom', 1e-6));
  const taper = linear([
    { factor: 1, of: top },
    { factor: -1, of: bottom },
  ]);
  expect(standardUncertainty(taper)).toBeCloseTo(Math.SQRT2 * 1e-6, 15);
  const stack = linear([
    { factor: 1, of: top },
    { factor: 1, of: bottom },
  ]);
  expect(standardUncertainty(stack)).toBeCloseTo(Math.hypot(4e-6, 1e-6, 1e-6), 15);
  expect(covariance(top, bottom)).toBeCloseTo(4e-12, 20);
});

it('the first-order law through a product is the relative root sum of squares', () => {
  const a = uncertain(2, term('a', 0.02));
  const b = uncertain(5, term('b', 0.1));
  const product = propagated(([x = 0, y = 0]) => x * y, [a, b]);
  expect(product.value).toBe(10);
  expect(standardUncertainty(product)).toBeCloseTo(10 * Math.hypot(0.01, 0.02), 12);
});

it('propagation of a linear relation equals the linear form', () => {
  fc.assert(
    fc.property(
      fc.tuple(...Array.from({ length: 4 }, () => fc.integer({ min: -50, max: 50 }))),
      ([p, q, r, s]) => {
        const x = uncertain(p ?? 0, term('one', 0.5), term('two', (q ?? 0) / 10));
        const y = uncertain(r ?? 0, term('one', -0.25), term('three', 1));
        const parts = [
          { factor: 3, of: x },
          { factor: (s ?? 0) / 7, of: y },
        ];
        const direct = linear(parts, 2);
        const through = propagated(([a = 0, b = 0]) => 3 * a + ((s ?? 0) / 7) * b + 2, [x, y]);
        expect(through.value).toBeCloseTo(direct.value, 9);
        expect(standardUncertainty(through)).toBeCloseTo(standardUncertainty(direct), 9);
      },
    ),
  );
});

it('a slope is taken closer in when the function ends one standard uncertainty away', () => {
  const root = propagated(([x = 0]) => Math.sqrt(x), [uncertain(1, term('x', 1.5))]);
  expect(standardUncertainty(root)).toBeGreaterThan(0.7);
  expect(() => propagated(() => Number.NaN, [exact(1)])).toThrow(RangeError);
});

it('degrees of freedom: n equal terms of ν each give n ν, known terms dilute', () => {
  const four = uncertain(0, ...['a', 'b', 'c', 'd'].map((s) => term(s, 1, 'normal', 10)));
  expect(effectiveDof(four)).toBeCloseTo(40, 9);
  expect(effectiveDof(exact(3))).toBe(Number.POSITIVE_INFINITY);
  expect(expanded(exact(3)).U).toBe(0);
  // Equal sources first add: (1 + 1) of 10 degrees stays at 10.
  expect(effectiveDof(uncertain(0, term('a', 1, 'normal', 10), term('a', 1, 'normal', 10)))).toBeCloseTo(
    10,
    12,
  );
});

it('repeated readings and half-widths give the standard uncertainties of the guide', () => {
  const r = repeated([1, 2, 3, 4]);
  expect(r).toEqual({ mean: 2.5, sd: Math.sqrt(5 / 3), u: Math.sqrt(5 / 3) / 2, dof: 3 });
  // NIST StRD NumAcc4: certified mean 10000000.2 and sd 0.1 for 1001 values; naive sums lose the sd.
  const hard = [10000000.2, ...Array.from({ length: 500 }, () => [10000000.1, 10000000.3]).flat()];
  expect(repeated(hard).sd).toBeCloseTo(0.1, 7);
  expect(fromHalfWidth(1, 'rectangular')).toBeCloseTo(0.577350269189626, 14);
  expect(fromHalfWidth(1, 'triangular')).toBeCloseTo(0.408248290463863, 14);
  expect(fromHalfWidth(1, 'arcsine')).toBeCloseTo(Math.SQRT1_2, 14);
  expect(fromResolution(0.01)).toBeCloseTo(0.00288675134594813, 15);
  expect(fromExpanded(4, 2)).toBe(2);
  expect(() => repeated([1])).toThrow(RangeError);
});

const sum = (x: readonly number[]): number => x.reduce((s, v) => s + v, 0);
const half = (spread: { quantile: (p: number) => number }): number =>
  (spread.quantile(0.975) - spread.quantile(0.025)) / 2;

it('Monte Carlo: four normal terms give 2 and ± 3.92 (JCGM 101 9.2.2)', () => {
  const inputs = ['a', 'b', 'c', 'd'].map((s) => uncertain(0, term(s, 1)));
  const spread = monteCarlo(sum, inputs, { trials: 200_000, seed: 1 });
  expect(spread.u).toBeCloseTo(2, 1);
  expect(Math.abs(half(spread) - 3.92)).toBeLessThan(0.04);
});

it('Monte Carlo: four rectangular terms give ± 3.88 (JCGM 101 9.2.3)', () => {
  const inputs = ['a', 'b', 'c', 'd'].map((s) => uncertain(0, term(s, 1, 'rectangular')));
  const exactHalf = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
  expect(exactHalf).toBeCloseTo(3.88, 2);
  expect(Math.abs(half(monteCarlo(sum, inputs, { trials: 200_000, seed: 2 })) - exactHalf)).toBeLessThan(
    0.03,
  );
});

it('Monte Carlo: one dominant rectangular term gives ± 17.0, not the ± 19.9 of the normal law (JCGM 101 9.2.4)', () => {
  const inputs = [1, 1, 1, 10].map((u, i) => uncertain(0, term(`s${i}`, u, 'rectangular')));
  const spread = monteCarlo(sum, inputs, { trials: 200_000, seed: 3 });
  expect(Math.abs(half(spread) - 17.0158)).toBeLessThan(0.1);
  expect(spread.u).toBeCloseTo(Math.sqrt(103), 0);
});

it('Monte Carlo draws a shared source once a trial, and the same seed gives the same answer', () => {
  const a = uncertain(5, term('shared', 1), term('a', 0.1));
  const b = uncertain(3, term('shared', 1), term('b', 0.1));
  const difference = monteCarlo(([x = 0, y = 0]) => x - y, [a, b], { trials: 50_000, seed: 4 });
  expect(difference.u).toBeCloseTo(0.1414, 2);
  expect(difference.mean).toBeCloseTo(2, 2);
  const again = monteCarlo(([x = 0, y = 0]) => x - y, [a, b], { trials: 50_000, seed: 4 });
  expect(again.mean).toBe(difference.mean);
});

it('Monte Carlo draws few degrees of freedom as a t, wider than the normal', () => {
  const q = uncertain(0, term('few', 1, 'normal', 4));
  const spread = monteCarlo(([x = 0]) => x, [q], { trials: 200_000, seed: 5 });
  // t 0.975 with four degrees is 2.776.
  expect(Math.abs(half(spread) - 2.776)).toBeLessThan(0.06);
});

it('Monte Carlo: arcsine and triangular have the unit spread they are drawn for', () => {
  for (const shape of ['arcsine', 'triangular'] as const) {
    const spread = monteCarlo(([x = 0]) => x, [uncertain(0, term('x', 1, shape))], {
      trials: 100_000,
      seed: 6,
    });
    expect(spread.u).toBeCloseTo(1, 2);
    const edge = shape === 'arcsine' ? Math.SQRT2 : Math.sqrt(6);
    expect(spread.quantile(1)).toBeLessThanOrEqual(edge);
    expect(spread.quantile(1)).toBeGreaterThan(0.97 * edge);
  }
});

it('Monte Carlo says how many trials had no value', () => {
  const spread = monteCarlo(([x = 0]) => Math.sqrt(x), [uncertain(0, term('x', 1))], {
    trials: 10_000,
    seed: 7,
  });
  expect(spread.lost).toBeGreaterThan(4500);
  expect(spread.lost).toBeLessThan(5500);
  expect(() => monteCarlo(() => Number.NaN, [], { trials: 10, seed: 1 })).toThrow(RangeError);
});

import { expect, it } from 'vitest';
import { rectangularSumCdf, rectangularSumHalfInterval } from './rectangular-sum.ts';

it('one term is rectangular and two equal ones are triangular', () => {
  expect(rectangularSumCdf([2], 1)).toBeCloseTo(0.75, 14);
  // Triangular on ± 2: 1 − (2 − x)²/8.
  expect(rectangularSumCdf([1, 1], 1)).toBeCloseTo(1 - 1 / 8, 14);
  expect(rectangularSumCdf([1, 1], 5)).toBe(1);
  expect(rectangularSumCdf([1, 1], -5)).toBe(0);
  expect(rectangularSumHalfInterval([Math.sqrt(3)], 0.95)).toBeCloseTo(0.95 * Math.sqrt(3), 12);
});

it('four equal terms give the closed form of JCGM 101 9.2.3', () => {
  const root3 = Math.sqrt(3);
  const four = rectangularSumHalfInterval([root3, root3, root3, root3], 0.95);
  expect(four).toBeCloseTo(2 * root3 * (2 - 0.6 ** 0.25), 10);
});

it('takes no more terms than it can keep exact', () => {
  expect(() => rectangularSumCdf([], 0)).toThrow(RangeError);
  expect(() => rectangularSumCdf(Array(13).fill(1), 0)).toThrow(RangeError);
});

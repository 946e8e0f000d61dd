import { expect, it } from 'vitest';
import { factorInPlace, logNormalDensity, unwhitenInPlace, whitenInPlace } from './gaussian.ts';
import { normalDensity } from './normal.ts';

it('factors a matrix that was made from a factor', () => {
  // L = [2 0 0; 1 3 0; −1 2 1.5], S = L Lᵀ by hand.
  const s = Float64Array.from([4, 2, -2, 2, 10, 5, -2, 5, 7.25]);
  expect(factorInPlace(s, 3)).toBe(true);
  expect([s[0], s[3], s[4], s[6], s[7], s[8]]).toEqual([2, 1, 3, -1, 2, 1.5]);
});

it('says when a matrix is not positive definite', () => {
  expect(factorInPlace(Float64Array.from([1, 2, 2, 1]), 2)).toBe(false);
});

it('gives the density of two correlated normals', () => {
  // Correlation 0.6: density = φ(x) φ((y − 0.6 x)/0.8)/0.8.
  const s = Float64Array.from([1, 0.6, 0.6, 1]);
  expect(factorInPlace(s, 2)).toBe(true);
  const r = Float64Array.from([0.7, -0.3]);
  whitenInPlace(s, r, 2);
  const byHand = (normalDensity(0.7) * normalDensity((-0.3 - 0.6 * 0.7) / 0.8)) / 0.8;
  expect(Math.exp(logNormalDensity(s, r, 2))).toBeCloseTo(byHand, 12);
});

it('solves a system when whitened and unwhitened', () => {
  const s = [4, 2, -2, 2, 10, 5, -2, 5, 7.25];
  const l = Float64Array.from(s);
  factorInPlace(l, 3);
  // S (1, −2, 3) = (−6, −3, 9.75) by hand.
  const b = Float64Array.from([-6, -3, 9.75]);
  whitenInPlace(l, b, 3);
  unwhitenInPlace(l, b, 3);
  [1, -2, 3].forEach((x, i) => {
    expect(b[i]).toBeCloseTo(x, 12);
  });
});

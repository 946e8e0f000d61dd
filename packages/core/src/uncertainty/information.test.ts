import fc from 'fast-check';
import { expect, it } from 'vitest';
import { entropy, mutualInformation } from './information.ts';
import { normalDensity } from './normal.ts';

const grid = (from: number, to: number, points: number, f: (x: number) => number) => {
  const step = (to - from) / (points - 1);
  return { step, values: Float64Array.from({ length: points }, (_, i) => f(from + i * step)) };
};

it('is one bit less the noise of a symmetric yes-or-no channel', () => {
  // A test that is wrong one time in ten: 1 − H(0.1) = 1 − 0.468996 = 0.531004 bit.
  expect(
    mutualInformation(
      [0.5, 0.5],
      [
        [0.9, 0.1],
        [0.1, 0.9],
      ],
      1,
    ),
  ).toBeCloseTo(0.531004, 6);
});

it('is nothing where the outcomes are alike, and all there is where they lie far apart', () => {
  const a = grid(-10, 60, 4001, (x) => normalDensity(x));
  const b = grid(-10, 60, 4001, (x) => normalDensity(x - 50));
  expect(mutualInformation([0.3, 0.7], [a.values, a.values], a.step)).toBeCloseTo(0, 9);
  // H(0.3) = 0.881291 bit.
  expect(mutualInformation([0.3, 0.7], [a.values, b.values], a.step)).toBeCloseTo(0.881291, 5);
});

it('of two normal outcomes two deviations apart is what a midpoint sum in another program gives', () => {
  // Signals of +1 and −1 in noise of variance 1: 0.485944 bit.
  const plus = grid(-12, 12, 6001, (x) => normalDensity(x - 1));
  const minus = grid(-12, 12, 6001, (x) => normalDensity(x + 1));
  expect(mutualInformation([0.5, 0.5], [plus.values, minus.values], plus.step)).toBeCloseTo(0.485944, 5);
});

it('lies between zero and the entropy of the cases, whatever the channel', () => {
  const shares = (n: number) =>
    fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: n, maxLength: n }).map((raw) => {
      const sum = raw.reduce((s, x) => s + x, 0);
      return raw.map((x) => x / sum);
    });
  fc.assert(
    fc.property(shares(3), fc.array(shares(4), { minLength: 3, maxLength: 3 }), (cases, channel) => {
      const bits = mutualInformation(cases, channel, 1);
      expect(bits).toBeGreaterThanOrEqual(0);
      expect(bits).toBeLessThanOrEqual(entropy(cases) + 1e-12);
    }),
  );
});

it('entropy of four even cases is two bits', () => {
  expect(entropy([0.25, 0.25, 0.25, 0.25])).toBe(2);
  expect(entropy([1, 0])).toBe(0);
});

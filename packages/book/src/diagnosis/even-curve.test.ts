import fc from 'fast-check';
import { expect, it } from 'vitest';
import { evenCurve } from './even-curve.ts';

it('goes through its values and is straight where they are', () => {
  const curve = evenCurve([1, 3, 5, 7]);
  expect(curve(0)).toBe(1);
  expect(curve(1 / 3)).toBeCloseTo(3, 12);
  expect(curve(0.5)).toBeCloseTo(4, 12);
  expect(curve(1)).toBe(7);
});

it('never leaves the values on either side', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 2, maxLength: 9 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (values, u) => {
        const place = Math.min(Math.floor(u * (values.length - 1)), values.length - 2);
        const [a, b] = [values[place]!, values[place + 1]!];
        const y = evenCurve(values)(u);
        expect(y).toBeGreaterThanOrEqual(Math.min(a, b) - 1e-9);
        expect(y).toBeLessThanOrEqual(Math.max(a, b) + 1e-9);
      },
    ),
  );
});

it('comes near a smooth curve: e to the u within two hundredths from five values', () => {
  const curve = evenCurve([0, 0.25, 0.5, 0.75, 1].map(Math.exp));
  for (let u = 0; u <= 1; u += 0.01) expect(Math.abs(curve(u) - Math.exp(u))).toBeLessThan(0.02);
});

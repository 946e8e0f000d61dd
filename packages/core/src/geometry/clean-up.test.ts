import fc from 'fast-check';
import { expect, it } from 'vitest';
import { metre } from '../units/si.ts';
import { cleanUpBore, cleanUpJournal } from './clean-up.ts';

const cut = (oneSided: number, eccentricity: number, stock: number) => ({
  oneSided,
  eccentricity: metre(eccentricity),
  stock: metre(stock),
});

it('a bore worn .0077 on one side cleans up at twice that and what the cut and the hone need', () => {
  // 3.5000 + 2 · .0077 + 2 · .001 + .0025 = 3.5199, by hand, in inches.
  expect(cleanUpBore(metre(3.5077), metre(3.5), cut(1, 0.001, 0.0025))).toBeCloseTo(3.5199, 12);
  // Worn alike all round: 3.5077 + .002 + .0025 = 3.5122.
  expect(cleanUpBore(metre(3.5077), metre(3.5), cut(0.5, 0.001, 0.0025))).toBeCloseTo(3.5122, 12);
});

it('a journal of 2.4976 worn from 2.5000 on one side cleans up at 2.4927 with .001 of eccentricity and .0005 to polish', () => {
  // 2.5000 − 2 · .0024 − .002 − .0005 = 2.4927.
  expect(cleanUpJournal(metre(2.4976), metre(2.5), cut(1, 0.001, 0.0005))).toBeCloseTo(2.4927, 12);
});

it('is worn nowhere, cut on its axis, left alone', () => {
  expect(cleanUpBore(metre(3.4999), metre(3.5), cut(1, 0, 0))).toBe(3.5);
  expect(cleanUpJournal(metre(2.5001), metre(2.5), cut(1, 0, 0))).toBe(2.5);
});

it('every point of a worn bore, drawn all round, lies inside the cut, and the worst one on it', () => {
  const of = fc.record({
    wear: fc.double({ min: 0.001, max: 0.3, noNaN: true }),
    oneSided: fc.double({ min: 0.5, max: 1, noNaN: true }),
    off: fc.double({ min: 0, max: 0.2, noNaN: true }),
    toward: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
  });
  fc.assert(
    fc.property(of, ({ wear, oneSided, off, toward }) => {
      const made = 10;
      const radius = cleanUpBore(metre(made + wear), metre(made), cut(oneSided, off, 0)) / 2;
      const [cx, cy] = [off * Math.cos(toward), off * Math.sin(toward)];
      for (let i = 0; i < 360; i++) {
        const a = (i * Math.PI) / 180;
        // Worn by s·wear on one side, by the rest of the diameter on the other, less in between.
        const r =
          made / 2 +
          wear * (oneSided * Math.max(0, Math.cos(a)) ** 2 + (1 - oneSided) * Math.max(0, -Math.cos(a)) ** 2);
        expect(Math.hypot(r * Math.cos(a) - cx, r * Math.sin(a) - cy)).toBeLessThanOrEqual(radius + 1e-9);
      }
      // The axis moved straight away from the worst side: nothing to spare.
      const worst = made / 2 + wear * oneSided;
      expect(worst + off).toBeCloseTo(radius, 9);
    }),
    { numRuns: 50 },
  );
});

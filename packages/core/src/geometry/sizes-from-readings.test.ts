import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cubicMetre, metre, squareMetre } from '../units/si.ts';
import { compressionRatio, pistonArea, sweptVolume } from './cylinder.ts';
import { clearanceFromRock, rockFromClearance } from './guide-rock.ts';
import { diameterFromGap, filingFor, GAP_PER_BORE, ringGapIn } from './ring-gap.ts';
import { skimForRatio, skimForVolume, skimmedVolume } from './skim.ts';

const INCH = 0.0254;

it('a rock of .014 at 1.0 above a guide of 2.25 is a clearance of .0074', () => {
  // .014 · 2.25/(2.25 + 2) = .0315/4.25 = .007412.
  expect(clearanceFromRock(metre(0.014), metre(1), metre(2.25))).toBeCloseTo(0.0074117647, 9);
});

it('at the end of the guide the rock is the clearance itself', () => {
  expect(clearanceFromRock(metre(0.006), metre(0), metre(2))).toBe(0.006);
});

it('a stem turned until it touches both ends of its guide moves as far as the rule says', () => {
  const of = fc.record({
    clearance: fc.double({ min: 0.0005, max: 0.01, noNaN: true }),
    height: fc.double({ min: 0, max: 2, noNaN: true }),
    length: fc.double({ min: 1, max: 4, noNaN: true }),
  });
  fc.assert(
    fc.property(of, ({ clearance, height, length }) => {
      // The axis of the stem runs from −c/2 at the foot of the guide to +c/2 at its top: a turn about the middle.
      const angle = Math.atan(clearance / length);
      const reach = Math.tan(angle) * (length / 2 + height);
      const rock = rockFromClearance(metre(clearance), metre(height), metre(length));
      expect(rock).toBeCloseTo(2 * reach, 10);
      expect(clearanceFromRock(rock, metre(height), metre(length))).toBeCloseTo(clearance, 12);
    }),
  );
});

it('a gap grows by about .003 for .001 of bore, as service tables print it, and tells .0059 of taper', () => {
  expect(ringGapIn(metre(0.012), metre(3.5), metre(3.501)) - 0.012).toBeCloseTo(0.0031416, 7);
  expect(diameterFromGap(metre(0.0385 - 0.02))).toBeCloseTo(0.0059, 4);
  expect(filingFor(metre(0.006), metre(0.01))).toBeCloseTo(0.004, 12);
  expect(filingFor(metre(0.012), metre(0.01))).toBe(0);
});

it('the usual gap of a 3.5 in bore is .0105 to .0140 (common practice, no source)', () => {
  expect([GAP_PER_BORE.least * 3.5, GAP_PER_BORE.most * 3.5]).toEqual([
    expect.closeTo(0.0105, 12),
    expect.closeTo(0.014, 12),
  ]);
});

it('.010 in off a mouth of 3.5 in takes 1.58 cm³ of the chamber', () => {
  // π/4 · 3.5² · .010 = .096211 in³ = 1.5766 cm³.
  const taken = skimmedVolume(pistonArea(metre(3.5 * INCH)), metre(0.01 * INCH));
  expect(taken * 1e6).toBeCloseTo(1.5766, 3);
});

it('the depth for a ratio gives that ratio, and the depth for a volume that volume', () => {
  const swept = sweptVolume(metre(3.5 * INCH), metre(4.47 * INCH));
  const mouth = squareMetre(62e-4);
  const clearance = cubicMetre(121.6e-6);
  const depth = skimForRatio(swept, clearance, mouth, 7.2);
  expect(compressionRatio(swept, cubicMetre(clearance - skimmedVolume(mouth, depth)))).toBeCloseTo(7.2, 12);
  expect(depth).toBeGreaterThan(0);
  expect(skimForRatio(swept, clearance, mouth, 6.5)).toBeLessThan(0);
  const least = skimForVolume(cubicMetre(98e-6), cubicMetre(97e-6), mouth);
  expect(least / INCH).toBeCloseTo(0.00635, 5);
});

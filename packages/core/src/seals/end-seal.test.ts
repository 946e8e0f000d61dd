import { expect, it } from 'vitest';
import { metre } from '../units/si.ts';
import { endSealLength } from './end-seal.ts';
import { squeezeFraction } from './squeeze.ts';

it('a groove of 2.060 in radius with .060 at each end takes 6.592 in', () => {
  expect(endSealLength(metre(2.06 * 0.0254), metre(0.06 * 0.0254)) / 0.0254).toBeCloseTo(6.592, 3);
});

it('a packing closed to three quarters is squeezed by one quarter', () => {
  expect(squeezeFraction(metre(0.004), metre(0.003))).toBeCloseTo(0.25, 12);
});

import { expect, it } from 'vitest';
import { metre } from '../units/si.ts';
import { boltThreadBending, nutThreadBending } from './alexander.ts';
import { threadFrom } from './designation.ts';
import { equalStrengthEngagement, externalShearArea, internalShearArea } from './stripping.ts';
import { stressArea } from './thread.ts';
import { unifiedLimits } from './thread-limits.ts';

/** Areas for each inch of engagement, bolt and hole, as the handbook's UNC 2A/2B rows give them. */
it.each([
  ['1/4-20', 0.368, 0.539],
  ['5/16-18', 0.47, 0.682],
  ['3/8-16', 0.576, 0.828],
  ['7/16-14', 0.677, 0.978],
  ['1/2-13', 0.779, 1.12],
])('%s shears %f and %f in² an inch, and needs about 0.7 D', (text, bolt, hole) => {
  const read = threadFrom(text);
  if (!read.ok) throw new Error(text);
  const thread = read.value;
  const limits = unifiedLimits(thread);
  const inch = metre(0.0254);
  const square = 0.0254 ** 2;
  expect(Math.abs(externalShearArea(thread.pitch, inch, limits) / square / bolt - 1)).toBeLessThan(0.01);
  expect(Math.abs(internalShearArea(thread.pitch, inch, limits) / square / hole - 1)).toBeLessThan(0.01);
  const needed = equalStrengthEngagement(stressArea(thread), thread.pitch, limits) / thread.major;
  expect(needed).toBeGreaterThan(0.68);
  expect(needed).toBeLessThan(0.74);
});

it('the bending factors of bolt and nut meet at equal strength', () => {
  expect(boltThreadBending(1.000001)).toBeCloseTo(0.897, 3);
  expect(nutThreadBending(0.999999)).toBeCloseTo(0.897, 3);
  expect(boltThreadBending(1)).toBe(0.897);
  expect(nutThreadBending(1)).toBe(0.897);
});

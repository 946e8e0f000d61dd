import { expect, it } from 'vitest';
import { metre, pascal } from '../units/si.ts';
import { hubHoopStress, type Press, pressPressure, shaftHoopStress } from './interference-fit.ts';

const steel = { modulus: pascal(207e9), poisson: 0.292 };
const fit = (shaftBore: number): Press => ({
  bore: metre(0.05),
  interference: metre(40e-6),
  hubOutside: metre(0.1),
  shaftBore: metre(shaftBore),
  hub: steel,
  shaft: steel,
});

it('one material on a solid shaft gives p = E δ (D² − d²)/(2 d D²)', () => {
  const byHand = (207e9 * 40e-6 * (0.1 ** 2 - 0.05 ** 2)) / (2 * 0.05 * 0.1 ** 2);
  expect(pressPressure(fit(0)) / byHand).toBeCloseTo(1, 12);
});

it('the strains of both parts at the joint add up to the interference', () => {
  for (const bore of [0, 0.02]) {
    const press = fit(bore);
    const p = pressPressure(press);
    // Radial stress is −p in both: ε_hoop = (σ_hoop + ν p)/E.
    const grown = (hubHoopStress(p, press) + 0.292 * p) / 207e9;
    const shrunk = (shaftHoopStress(p, press) + 0.292 * p) / 207e9;
    expect((grown - shrunk) * 0.05).toBeCloseTo(40e-6, 12);
  }
});

it('a hollow shaft gives way and presses less', () => {
  expect(pressPressure(fit(0.03))).toBeLessThan(pressPressure(fit(0)));
});

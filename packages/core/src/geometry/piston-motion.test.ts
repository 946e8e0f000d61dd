import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { metre, radian, radianPerSecond } from '../units/si.ts';
import {
  deadCentres,
  distanceFromTop,
  pistonAcceleration,
  pistonTravel,
  pistonVelocity,
  type SliderCrank,
} from './piston-motion.ts';

const crank = (ratio: number, offset: number): SliderCrank => ({
  crankRadius: metre(0.05),
  rod: metre(0.05 * ratio),
  offset: metre(0.05 * offset),
});
const mechanisms = fc
  .tuple(fc.double({ min: 2.5, max: 6, noNaN: true }), fc.double({ min: -0.5, max: 0.5, noNaN: true }))
  .map(([ratio, offset]) => crank(ratio, offset));
const angles = fc.double({ min: -10, max: 10, noNaN: true });

it('velocity and acceleration are the slopes of distance and velocity', () => {
  const speed = radianPerSecond(300);
  const h = 1e-5;
  fc.assert(
    fc.property(mechanisms, angles, (mechanism, angle) => {
      const at = (shift: number) => radian(angle + shift);
      const slope = (distanceFromTop(mechanism, at(h)) - distanceFromTop(mechanism, at(-h))) / (2 * h);
      expect(pistonVelocity(mechanism, radian(angle), speed)).toBeCloseTo(slope * 300, 5);
      const bend =
        (pistonVelocity(mechanism, at(h), speed) - pistonVelocity(mechanism, at(-h), speed)) / (2 * h);
      expect(Math.abs(pistonAcceleration(mechanism, radian(angle), speed) - bend * 300)).toBeLessThan(0.01);
    }),
  );
});

it('the piston is never above its top, stands still there, and travels its stroke to the bottom', () => {
  fc.assert(
    fc.property(mechanisms, angles, (mechanism, angle) => {
      const { top, bottom } = deadCentres(mechanism);
      const travel = pistonTravel(mechanism);
      expect(distanceFromTop(mechanism, radian(angle))).toBeGreaterThanOrEqual(-1e-12);
      expect(distanceFromTop(mechanism, radian(angle))).toBeLessThanOrEqual(travel + 1e-12);
      expect(distanceFromTop(mechanism, top)).toBeCloseTo(0, 12);
      expect(distanceFromTop(mechanism, bottom)).toBeCloseTo(travel, 12);
      expect(pistonVelocity(mechanism, top, radianPerSecond(300))).toBeCloseTo(0, 9);
    }),
  );
});

it('at the dead centres a centred piston is accelerated by r ω² (1 ± r/l)', () => {
  const mechanism = crank(4, 0);
  expect(pistonAcceleration(mechanism, radian(0), radianPerSecond(100))).toBeCloseTo(0.05 * 1e4 * 1.25, 9);
  expect(pistonAcceleration(mechanism, radian(Math.PI), radianPerSecond(100))).toBeCloseTo(
    -0.05 * 1e4 * 0.75,
    9,
  );
});

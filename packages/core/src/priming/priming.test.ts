import fc from 'fast-check';
import { expect, it } from 'vitest';
import { kilogramPerCubicMetre, metre, pascal, pascalSecond, radianPerSecond } from '../units/si.ts';
import { ATMOSPHERE, GRAVITY } from './air.ts';
import { columnRiseTime } from './column-rise.ts';
import { dryInletPressure, evacuationTime, liftOf, pressureOfLift, speedToLift } from './dry-lift.ts';

const OIL = kilogramPerCubicMetre(880);

const pumps = fc.record({
  displacement: fc.double({ min: 1e-6, max: 1e-4, noNaN: true }),
  conductance: fc.double({ min: 1e-13, max: 1e-6, noNaN: true }),
});
const speeds = fc.double({ min: 0.1, max: 500, noNaN: true }).map(radianPerSecond);

it('draws down to where what is swept, at inlet pressure, is what leaks back', () => {
  fc.assert(
    fc.property(pumps, speeds, (pump, speed) => {
      const inlet = dryInletPressure(pump, speed, ATMOSPHERE);
      const swept = (pump.displacement * speed * inlet) / (2 * Math.PI);
      const leaking = (pump.conductance * (ATMOSPHERE - inlet) * (ATMOSPHERE + inlet)) / 2;
      // Where hardly anything is drawn the difference of two near pressures keeps few digits.
      expect(Math.abs(swept - leaking)).toBeLessThanOrEqual(
        1e-9 * swept + 1e-15 * pump.conductance * ATMOSPHERE ** 2,
      );
    }),
  );
});

it('needs just the speed at which it lifts that high', () => {
  fc.assert(
    fc.property(pumps, fc.double({ min: 0.01, max: 11, noNaN: true }), (pump, height) => {
      const speed = speedToLift(pump, metre(height), OIL, ATMOSPHERE);
      const inlet = dryInletPressure(pump, speed, ATMOSPHERE);
      expect(liftOf(pascal(ATMOSPHERE - inlet), OIL) / height).toBeCloseTo(1, 6);
    }),
  );
});

it('lifts no column that weighs more than the air outside, however fast it turns', () => {
  const pump = { displacement: 1e-5, conductance: 1e-9 };
  expect(pressureOfLift(metre(12), OIL)).toBeGreaterThan(ATMOSPHERE);
  expect(speedToLift(pump, metre(12), OIL, ATMOSPHERE)).toBe(Number.POSITIVE_INFINITY);
});

it('loses lift with the cube of its gaps while it draws little', () => {
  const at = (conductance: number) =>
    ATMOSPHERE - dryInletPressure({ displacement: 1e-5, conductance }, radianPerSecond(8), ATMOSPHERE);
  expect(at(1e-7) / at(8e-7)).toBeCloseTo(8, 1);
});

it('evacuates nothing below what its leak allows', () => {
  expect(evacuationTime(1e-3, 1e-4, pascal(1e5), pascal(5e4), pascal(5e4))).toBe(Number.POSITIVE_INFINITY);
  // One e-fold of what is left above the ultimate pressure takes V/S.
  const to = pascal(5e4 + 5e4 / Math.E);
  expect(evacuationTime(1e-3, 1e-4, pascal(1e5), to, pascal(5e4))).toBeCloseTo(10, 9);
});

it('climbs as Poiseuille has it: the closed form is the integral of dh over the rate at each height', () => {
  const [radius, suction, height, viscosity] = [0.006, 4000, 0.25, 0.3];
  const steps = 4000;
  let time = 0;
  for (let i = 0; i < steps; i++) {
    const h = (height * (i + 0.5)) / steps;
    const rate = (radius ** 2 * (suction - OIL * GRAVITY * h)) / (8 * viscosity * h);
    time += height / steps / rate;
  }
  const closed = columnRiseTime(metre(radius), pascal(suction), metre(height), OIL, pascalSecond(viscosity));
  expect(closed / time).toBeCloseTo(1, 5);
  expect(columnRiseTime(metre(radius), pascal(2000), metre(height), OIL, pascalSecond(viscosity))).toBe(
    Number.POSITIVE_INFINITY,
  );
});

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { metre, newton, newtonPerMetre, pascal } from '../units/si.ts';
import {
  activeCoils,
  activeCoilsForRate,
  coilSpringRate,
  nestedLoads,
  SPRING_ENDS,
  totalCoils,
} from './coil-spring.ts';

const INCH = 0.0254;
const LBF = 4.4482216152605;

it('.047 wire, .390 mean, 11 active coils of 11.5e6 psi make 10.75 lbf/in', () => {
  const rate = coilSpringRate(
    metre(0.047 * INCH),
    metre(0.39 * INCH),
    11,
    pascal(11.5e6 * (LBF / INCH ** 2)),
  );
  expect((rate * INCH) / LBF).toBeCloseTo(10.75, 2);
});

it('one per cent of the wire is four of the rate', () => {
  const rate = (d: number) => coilSpringRate(metre(d), metre(0.01), 10, pascal(80e9));
  expect(rate(1.01e-3) / rate(1e-3)).toBeCloseTo(1.01 ** 4, 12);
});

it('the coils for a rate give that rate back', () => {
  const rate = coilSpringRate(metre(4e-3), metre(0.032), 7.95, pascal(81.37e9));
  expect(activeCoilsForRate(metre(4e-3), metre(0.032), pascal(81.37e9), rate)).toBeCloseTo(7.95, 12);
});

it('dead coils come back however the ends are made', () => {
  for (const ends of SPRING_ENDS) expect(totalCoils(activeCoils(12.5, ends), ends)).toBe(12.5);
});

it('two nested springs carry the load between them and end equally long', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 5000, noNaN: true }),
      fc.double({ min: 1e3, max: 1e5, noNaN: true }),
      fc.double({ min: 1e3, max: 1e5, noNaN: true }),
      fc.double({ min: 0, max: 0.02, noNaN: true }),
      (load, k1, k2, gap) => {
        const { longer, shorter } = nestedLoads(
          newton(load),
          newtonPerMetre(k1),
          newtonPerMetre(k2),
          metre(gap),
        );
        expect((longer + shorter) / load).toBeCloseTo(1, 10);
        if (shorter > 0) expect(longer / k1 - gap).toBeCloseTo(shorter / k2, 10);
        else expect(longer / k1).toBeLessThanOrEqual(gap * (1 + 1e-12));
      },
    ),
  );
});

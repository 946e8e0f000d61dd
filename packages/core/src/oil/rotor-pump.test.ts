import { expect, it } from 'vitest';
import { metre, pascal, pascalSecond, squareMetre } from '../units/si.ts';
import { rotorPumpDisplacement, rotorTipSlip, roundTipLength } from './rotor-pump.ts';

it('a rotor pump delivers what its chambers are seen to push out while its shaft turns once', () => {
  const [teeth, greatest, least, thickness] = [4, 180e-6, 12e-6, 0.025];
  const chamber = (angle: number) => (greatest + least) / 2 + ((greatest - least) / 2) * Math.cos(angle);
  const steps = 7000;
  let pushed = 0;
  for (let k = 0; k < teeth + 1; k++)
    for (let i = 0; i < steps; i++) {
      const at = (step: number) =>
        chamber((2 * Math.PI * k) / (teeth + 1) + (2 * Math.PI * step * teeth) / (teeth + 1) / steps);
      pushed += Math.max(0, at(i) - at(i + 1)) * thickness;
    }
  const displacement = rotorPumpDisplacement(
    teeth,
    squareMetre(greatest),
    squareMetre(least),
    metre(thickness),
  );
  expect(displacement / pushed).toBeCloseTo(1, 6);
  // By hand: 4 · 168 mm² · 25 mm.
  expect(displacement).toBeCloseTo(16.8e-6, 12);
});

it('round tips pass as much as a flat slot of the length given, by quadrature over their gap', () => {
  for (const [radius, gap] of [
    [0.004, 5e-5],
    [0.0015, 2e-4],
  ] as const) {
    let sum = 0;
    const step = gap / 200;
    for (let x = -0.02; x < 0.02; x += step)
      sum += (gap / (gap + (x + step / 2) ** 2 / (2 * radius))) ** 3 * step;
    expect(roundTipLength(metre(radius), metre(gap)) / sum).toBeCloseTo(1, 6);
  }
});

it('slip past round tips grows with the gap to the power two and a half, and a shut gap passes nothing', () => {
  const slip = (gap: number) =>
    rotorTipSlip(metre(0.025), metre(gap), metre(0.003), 2, pascal(4e5), pascalSecond(0.012));
  expect(slip(2e-4) / slip(1e-4)).toBeCloseTo(2 ** 2.5, 9);
  expect(slip(0)).toBe(0);
  // By hand: 0.025 · 1e-12 · 4e5 / (12 · 0.012 · 2 · 9.125e-4), the length 1.1781 √(6e-7).
  expect(slip(1e-4)).toBeCloseTo(3.8051e-5, 8);
});

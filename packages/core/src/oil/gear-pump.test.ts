import { expect, it } from 'vitest';
import {
  cubicMetrePerSecond,
  kilogramPerCubicMetre,
  metre,
  newton,
  newtonPerMetre,
  pascal,
  pascalSecond,
  radian,
  squareMetre,
} from '../units/si.ts';
import { basePitch, endSlip, gearPumpDisplacement, leavesInvolute, tipSlip } from './gear-pump.ts';
import { creepingHoleFlow, orificeFlow } from './orifice.ts';
import { frictionFactor, pressureLoss, reynoldsNumber } from './passage.ts';
import { crackingPressure, preloadFromLengths } from './relief-valve.ts';

const INCH = 0.0254;

const SUMP_PUMP = {
  teeth: 8,
  tipDiameter: metre(1.25 * INCH),
  faceWidth: metre(0.752 * INCH),
  pressureAngle: radian((25 * Math.PI) / 180),
  module: metre(INCH / 8),
  centreDistance: metre(INCH),
};

it('displacement is the mean of the flow over a base pitch of contact', () => {
  // Torque balance at contact u from the pitch point: flow = ω b (r_a² − r_w² − u²), u from −p_b/2 to p_b/2.
  const { module, pressureAngle, tipDiameter, centreDistance, faceWidth } = SUMP_PUMP;
  const pb = basePitch(module, pressureAngle);
  const n = 10_000;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const u = ((i + 0.5) / n - 0.5) * pb;
    sum += (tipDiameter / 2) ** 2 - (centreDistance / 2) ** 2 - u * u;
  }
  expect(gearPumpDisplacement(SUMP_PUMP) / ((2 * Math.PI * faceWidth * sum) / n)).toBeCloseTo(1, 7);
});

it('eight teeth of 8 DP, 25°, 1.250 over the tips and .752 wide displace .615 in³', () => {
  expect(gearPumpDisplacement(SUMP_PUMP) / INCH ** 3).toBeCloseTo(0.615, 3);
});

it('tips that reach past the base tangent point are noticed', () => {
  // By hand: √(.625² − .4532²) = .4304 over 1.000 sin 25° = .4226, so eight standard teeth are undercut.
  expect(leavesInvolute(SUMP_PUMP)).toBe(true);
  // Twenty teeth of 20°: √(11² − 9.397²) = 5.718 modules under 20 sin 20° = 6.840.
  const twenty = {
    ...SUMP_PUMP,
    teeth: 20,
    module: metre(1e-3),
    tipDiameter: metre(22e-3),
    centreDistance: metre(20e-3),
    pressureAngle: radian((20 * Math.PI) / 180),
  };
  expect(leavesInvolute(twenty)).toBe(false);
});

it('an end clearance shared evenly by both faces leaks a quarter of one all on one face', () => {
  const slip = (split: number) => endSlip(metre(1e-4), 2, split, pascal(2e5), pascalSecond(0.01));
  expect(slip(0.5) / slip(0)).toBeCloseTo(0.25, 12);
  expect(slip(0)).toBeCloseTo((2 * 2 * 1e-12 * 2e5) / (12 * 0.01), 18);
});

it('slip goes with the cube of the gap, and tips share it by land and number', () => {
  const slip = (t: number, land: number, n: number) =>
    tipSlip(metre(t), metre(land), n, metre(0.02), pascal(2e5), pascalSecond(0.01));
  expect(slip(2e-4, 1e-3, 3) / slip(1e-4, 1e-3, 3)).toBeCloseTo(8, 12);
  expect(slip(1e-4, 1e-3, 3) / slip(1e-4, 3e-3, 1)).toBeCloseTo(1, 12);
});

it('a relief plunger opens where spring force equals pressure times area', () => {
  // Common practice, no source. 8.84 lbf over a .500 plunger is 45 psi by hand: 8.84/0.19635 = 45.02.
  const area = squareMetre((Math.PI / 4) * (0.5 * INCH) ** 2);
  const force = newton(8.84 * 4.4482216152605);
  expect(crackingPressure(force, area) / 6894.757293168).toBeCloseTo(45.02, 2);
  expect(crackingPressure(force, area) * area).toBeCloseTo(force, 12);
  // The same spring by its lengths: 10.75 lbf/in, 2.382 free, 1.560 in place: 8.8365 lbf.
  const rate = newtonPerMetre((10.75 * 4.4482216152605) / INCH);
  expect(preloadFromLengths(rate, metre(2.382 * INCH), metre(1.56 * INCH)) / 4.4482216152605).toBeCloseTo(
    8.8365,
    4,
  );
});

it('laminar friction in a pipe is that of Hagen and Poiseuille', () => {
  const [d, l, q, rho, mu] = [
    metre(0.008),
    metre(0.12),
    cubicMetrePerSecond(2 / 60_000),
    kilogramPerCubicMetre(850),
    pascalSecond(0.01),
  ];
  const re = reynoldsNumber(d, q, rho, mu);
  expect(re).toBeLessThan(2300);
  expect(pressureLoss(d, l, q, rho, frictionFactor(re, 0))).toBeCloseTo(
    (128 * mu * l * q) / (Math.PI * d ** 4),
    9,
  );
});

it('the turbulent friction factor solves the equation of Colebrook and White', () => {
  for (const [re, rough] of [
    [2300, 0],
    [1e4, 0],
    [1e5, 1e-3],
    [1e7, 1e-5],
    [4000, 0.05],
  ] as const) {
    const x = 1 / Math.sqrt(frictionFactor(re, rough));
    expect(x + 2 * Math.log10(rough / 3.7 + (2.51 * x) / re)).toBeCloseTo(0, 11);
  }
  // Smooth at Re 1e5: 0.0180, the value every handbook chart shows (memory-certain).
  expect(frictionFactor(1e5, 0)).toBeCloseTo(0.018, 4);
});

it('a creeping jet equals a turbulent one whose coefficient is 0.2 √Re', () => {
  const [d, dp, mu, rho] = [metre(1e-3), pascal(2e4), pascalSecond(1), kilogramPerCubicMetre(880)];
  const q = creepingHoleFlow(d, dp, mu);
  const re = (d * rho * Math.sqrt((2 * dp) / rho)) / mu;
  // Cd = Re_ideal/25.2 by hand, and Re = Cd·Re_ideal on the mean velocity, so Cd = √(Re/25.2) = 0.2 √Re.
  expect(q / orificeFlow(d, re / 25.2, dp, rho)).toBeCloseTo(1, 12);
});

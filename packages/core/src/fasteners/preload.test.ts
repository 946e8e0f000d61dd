import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { metre, newton, newtonMetre, pascal } from '../units/si.ts';
import { nutFactor, statedNutFactor, THREAD_CONDITIONS } from './nut-factor.ts';
import {
  preloadAtStress,
  preloadByFriction,
  torqueByFriction,
  totalFriction,
  vonMisesStress,
} from './preload.ts';
import { metricThread, pitchDiameter, stressArea, stressDiameter } from './thread.ts';
import { torqueAdvice } from './torque-advice.ts';

const M8 = metricThread(metre(0.008), metre(0.00125));
const friction = (mu: number) => ({ thread: mu, bearing: mu, bearingDiameter: metre(0.011) });

it('torque and preload of the long form undo each other, and give the friction back', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.04, max: 0.4, noNaN: true }),
      fc.double({ min: 1, max: 200, noNaN: true }),
      (mu, t) => {
        const preload = preloadByFriction(newtonMetre(t), M8, friction(mu));
        expect(torqueByFriction(preload, M8, friction(mu))).toBeCloseTo(t, 9);
        expect(totalFriction(newtonMetre(t), preload, M8, metre(0.011))).toBeCloseTo(mu, 9);
      },
    ),
  );
});

it('the combined stress is the one the guide solves for, with its factor 1.5 (d2/d0)(P/πd2 + 1.155 μ)', () => {
  const [d2, d0] = [pitchDiameter(M8), stressDiameter(M8)];
  const ratio = 1.5 * (d2 / d0) * (0.00125 / (Math.PI * d2) + 1.155 * 0.12);
  // The printed solution takes the area of d0, W = π d0³/12: so does ours.
  const preload = (576e6 * stressArea(M8)) / Math.sqrt(1 + 3 * (2 * ratio) ** 2 * 0.25);
  const ours = preloadAtStress(pascal(576e6), M8, 0.12);
  expect(Math.abs(ours / preload - 1)).toBeLessThan(1e-3);
  expect(vonMisesStress(ours, M8, 0.12)).toBeCloseTo(576e6, 0);
  expect(vonMisesStress(newton(1e4), M8, 0)).toBeGreaterThan(1e4 / stressArea(M8));
});

it('every listed condition has a band round its figure and a source', () => {
  for (const condition of THREAD_CONDITIONS) {
    const found = nutFactor(condition)!;
    expect(found.low).toBeLessThan(found.nominal);
    expect(found.high).toBeGreaterThan(found.nominal);
    expect(found.sources.length).toBeGreaterThan(0);
  }
  expect(nutFactor('zinc plated')!.high).toBeGreaterThanOrEqual(0.295);
  expect(nutFactor('Lubricated')!.nominal).toBe(0.18);
  expect(nutFactor('sticky')).toBeUndefined();
});

it('the slippery end of a stated factor gives three tenths more preload', () => {
  expect(0.2 / statedNutFactor(0.2).low).toBeCloseTo(1.3, 12);
});

it('bad input to the advice comes back as issues', () => {
  const codes = (asked: Parameters<typeof torqueAdvice>[0]) => {
    const outcome = torqueAdvice(asked);
    return outcome.ok ? [] : outcome.issues.map((issue) => issue.code);
  };
  const base = { torque: newtonMetre(20), designation: 'M8', grade: '8.8', condition: 'dry' };
  expect(codes(base)).toEqual([]);
  expect(codes({ ...base, designation: '5/16-26' })).toEqual(['thread/unknown-form']);
  expect(codes({ ...base, grade: 'best' })).toEqual(['fastener/unknown-grade']);
  expect(codes({ ...base, condition: 'sticky' })).toEqual(['torque/nut-factor']);
  expect(codes({ ...base, nutFactor: 0.2 })).toEqual(['torque/nut-factor']);
  expect(codes({ ...base, condition: undefined, nutFactor: 20 })).toEqual(['torque/nut-factor']);
  expect(codes({ ...base, torque: newtonMetre(Number.NaN) })).toEqual(['torque/not-positive']);
});

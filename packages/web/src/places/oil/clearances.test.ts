import type { Characteristic, FilledCircuit, FilledParameter } from '@fettle/book';
import { exact } from '@fettle/core';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  circuitTried,
  clearancesOf,
  handStep,
  partlyRepaired,
  shareRepaired,
  standing,
  valuesAt,
} from './clearances.ts';

const characteristic = (id: string): Characteristic =>
  ({ id, name: id, kind: 'length', places: [], unit: 'mm' }) as unknown as Characteristic;

const mains = characteristic('main');
const parameter = (name: string, measured: number | undefined, repair = 'Mains'): FilledParameter => ({
  name,
  characteristic: mains,
  factor: 0.5,
  repair,
  nominal: 25e-6,
  trust: 'printed',
  repaired: 25e-6,
  ...(measured !== undefined && { measured: exact(measured) }),
  entries: [],
});
const circuit = (...parameters: FilledParameter[]): FilledCircuit =>
  ({ parameters, input: {}, gauge: 'gallery', network: {} }) as unknown as FilledCircuit;

const worn = circuit(parameter('main-1', 50e-6), parameter('main-2', 40e-6), parameter('main-3', 60e-6));

it('gathers what one measurement gives into one clearance, in its own measurand', () => {
  const [only, ...rest] = clearancesOf(worn);
  expect(rest).toEqual([]);
  // Radial 25 µm is 50 µm across; the mean of 100, 80 and 120 µm is 100.
  expect(only!.asNew).toBeCloseTo(50e-6, 12);
  expect(only!.found).toBeCloseTo(100e-6, 12);
  expect(only!.from).toBeLessThan(50e-6);
  expect(only!.to).toBeCloseTo(150e-6, 12);
});

it('is as new at the one end and as measured at the other, every place its own', () => {
  const [mean] = clearancesOf(worn);
  const close = (at: number, want: readonly number[]): void => {
    const got = Object.values(valuesAt(mean!, at));
    for (const [i, one] of want.entries()) expect(got[i]).toBeCloseTo(one, 12);
  };
  close(50e-6, [25e-6, 25e-6, 25e-6]);
  close(100e-6, [50e-6, 40e-6, 60e-6]);
  // Halfway, each has half its own wear; beyond, all are as much wider.
  close(75e-6, [37.5e-6, 32.5e-6, 42.5e-6]);
  close(120e-6, [60e-6, 50e-6, 70e-6]);
});

it('stands where it was dragged to, wherever that is', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 5e-6, max: 90e-6, noNaN: true }), { minLength: 1, maxLength: 5 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (found, share) => {
        const [one] = clearancesOf(circuit(...found.map((gap, i) => parameter(`main-${i}`, gap))));
        const at = one!.from + share * (one!.to - one!.from);
        expect(standing(one!, valuesAt(one!, at))).toBeCloseTo(at, 12);
      },
    ),
  );
});

it('can be dragged though nothing of it was measured', () => {
  const [one] = clearancesOf(circuit(parameter('main-1', undefined)));
  expect(one!.found).toBeUndefined();
  expect(one!.to).toBeGreaterThan(one!.asNew);
  expect(valuesAt(one!, 60e-6)['main-1']).toBeCloseTo(30e-6, 12);
});

it('makes part of a repair, and says how much of it is made', () => {
  const third = partlyRepaired(worn, 'Mains', 0.25);
  expect(third['main-3']).toBeCloseTo(60e-6 - 0.25 * 35e-6, 12);
  expect(shareRepaired(worn, 'Mains', third)).toBeCloseTo(0.25, 9);
  expect(shareRepaired(worn, 'Mains', {})).toBeUndefined();
  expect(shareRepaired(worn, 'Relief spring', third)).toBeUndefined();
});

it('puts what is tried in the place of what was measured, without doubt, and leaves the rest', () => {
  expect(circuitTried(worn, {})).toBe(worn);
  const { parameters } = circuitTried(worn, { 'main-2': 30e-6 });
  expect(parameters.map(({ measured }) => measured)).toEqual([exact(50e-6), exact(30e-6), exact(60e-6)]);
});

it('steps by 1, 2 or 5 of some place, about a hundredth of the way', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (span) => {
      const step = handStep(span);
      expect(span / step).toBeGreaterThan(69);
      expect(span / step).toBeLessThan(176);
      expect(Number(step.toExponential(3).split('e')[0])).toSatisfy((n: number) => [1, 2, 5].includes(n));
    }),
  );
});

import * as core from '@fettle/core';
import { expect, it } from 'vitest';
import { ROOT } from '../setup.mjs';
import { examplesOf, resultOf, toleranceOf } from './examples.mjs';
import { houseAt } from './house.mjs';
import { soundHouse } from './planted-house.mjs';

const EXAMPLES = examplesOf(houseAt(ROOT), 'core');

it('there are examples', () => {
  expect(EXAMPLES.length).toBeGreaterThan(0);
});

it.each(EXAMPLES)('the example at $at gives what it prints', ({ call, printed }) => {
  expect(Math.abs(resultOf(call, core) - Number(printed))).toBeLessThanOrEqual(toleranceOf(printed));
});

it('an example is read with its place, and held to its last digit', () => {
  const house = soundHouse({ 'packages/core/src/l.ts': '/**\n * @example twice(1.5) // 3.00\n */\n' });
  expect(examplesOf(house, 'core')).toEqual([
    { at: 'packages/core/src/l.ts:2', call: 'twice(1.5)', printed: '3.00' },
  ]);
  expect(resultOf('twice(1.5)', { twice: (x) => 2 * x })).toBe(3);
  expect(toleranceOf('3.00')).toBe(0.005);
  expect(toleranceOf('-1.5e-3')).toBeCloseTo(0.00005, 12);
});

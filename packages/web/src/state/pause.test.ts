import { expect, it } from 'vitest';
import { isAfterPause } from './pause.ts';

const at = (day: number, hour: number, minute = 0): number => new Date(2026, 0, day, hour, minute).getTime();

it('begins anew after four hours, and on a later day', () => {
  expect(isAfterPause(at(5, 9), at(5, 12, 59))).toBe(false);
  expect(isAfterPause(at(5, 9), at(5, 13))).toBe(true);
  expect(isAfterPause(at(5, 22), at(6, 0, 30))).toBe(true);
});

it('does not take working past midnight, or a clock put back, for a pause', () => {
  expect(isAfterPause(at(5, 23, 50), at(6, 0, 10))).toBe(false);
  expect(isAfterPause(at(6, 9), at(5, 9))).toBe(false);
});

import { expect, it } from 'vitest';
import { plain } from './plain.ts';

it('leaves of a function its name alone, and of everything else all', () => {
  const whole = {
    n: 1,
    none: null,
    list: [{ at: (z: number) => z, name: 'a' }],
    table: new Map([['k', 1]]),
    row: Float64Array.of(1, 2),
  };
  expect(() => structuredClone(whole)).toThrow(/could not be cloned/);
  const got = structuredClone(plain(whole));
  expect(got).toEqual({ ...whole, list: [{ at: undefined, name: 'a' }] });
  expect('at' in got.list[0]!).toBe(true);
});

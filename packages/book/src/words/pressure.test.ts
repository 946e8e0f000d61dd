import { fromUnit, term, uncertain } from '@fettle/core';
import { expect, it } from 'vitest';
import { pressureWords } from './pressure.ts';

/** A pressure with the doubt U at about 95 %, which is 1.96 standard uncertainties of a normal doubt. */
const said = (value: number, U: number, unit: string): string =>
  pressureWords(
    U === 0
      ? uncertain(fromUnit(value, unit))
      : uncertain(fromUnit(value, unit), term('made', fromUnit(U, unit) / 1.959964)),
    unit,
  );

it('a doubt has two significant figures at the most, and the value stops where it does', () => {
  expect(said(7.86, 0.84, 'psi')).toBe('7.9 ±0.8 psi');
  expect(said(37.84, 1.12, 'psi')).toBe('37.8 ±1.1 psi');
  expect(said(32.34, 10.81, 'psi')).toBe('32 ±11 psi');
  expect(said(3.9176, 0.1449, 'bar')).toBe('3.92 ±0.14 bar');
});

it('a doubt that would round to nothing is still said, and none is not', () => {
  expect(said(75.02, 0.031, 'psi')).toBe('75.0 ±0.03 psi');
  expect(said(30.51, 0, 'psi')).toBe('30.5 psi');
});

import { expect, it } from 'vitest';
import { shortBearingEccentricity, shortBearingLoad } from '../oil/short-bearing.ts';
import { metre, metrePerSecond, newton, pascalSecond, radianPerSecond } from '../units/si.ts';
import { tabledEccentricity } from './journal-eccentricity.ts';

const eccentricityOf = tabledEccentricity();
const slowly = (wanted: number) =>
  shortBearingEccentricity(newton(wanted / 4), metre(1), pascalSecond(1), metrePerSecond(1), metre(1));

it('the table gives the eccentricity that halving and Newton find, over eighteen decades of load', () => {
  for (let k = -90; k <= 90; k++) {
    const wanted = 10 ** (k / 10);
    const e = slowly(wanted);
    expect(Math.abs(eccentricityOf(wanted) / e - 1), `${wanted}`).toBeLessThan(1e-11);
    expect(Math.abs((1 - eccentricityOf(wanted)) / (1 - e) - 1), `${wanted}`).toBeLessThan(1e-8);
  }
});

it('a journal at the eccentricity found carries the load it was found from', () => {
  for (let e = 0.001; e < 0.999; e += 0.00713) {
    const load = shortBearingLoad(e, metre(1), metre(1), metre(1), pascalSecond(1), radianPerSecond(1));
    expect(Math.abs(eccentricityOf(4 * load) - e)).toBeLessThan(1e-11);
  }
});

it('an unloaded journal runs true, and one that nothing carries touches', () => {
  expect(eccentricityOf(0)).toBe(0);
  expect(eccentricityOf(Number.POSITIVE_INFINITY)).toBe(1);
  expect(eccentricityOf(1e13)).toBe(1);
});

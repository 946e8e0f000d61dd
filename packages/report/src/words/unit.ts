import { kindsOf, unitNamed } from '@fettle/core';

/**
 * How a person writes a unit: `lbf.ft` is `lbf·ft`. Where nobody says what kind of quantity it is, a writing that two
 * kinds share (g is a gram and standard gravity) is the unit of that very name, or stays as it is.
 */
export function unitSign(spelling: string): string {
  const units = kindsOf(spelling).flatMap((kind) => unitNamed(spelling, kind) ?? []);
  const named = units.find(({ name }) => name === spelling);
  if (named) return named.shown;
  const signs = new Set(units.map(({ shown }) => shown));
  return signs.size === 1 ? [...signs][0]! : spelling;
}

/** What stands between a figure and its unit: nothing before a per cent or degree sign. */
export const joined = (figure: string, sign: string): string =>
  `${figure}${sign === '' || sign === '%' || sign === '°' ? '' : ' '}${sign}`;

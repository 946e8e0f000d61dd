import { expanded, inUnit, parseQuantity, type Uncertain } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { WantedPressure } from '../oil/pressure-limit.ts';
import { DECIMALS } from './quantity.ts';

/** The unit of pressure the sheet speaks in. */
export function pressureUnit(book: Book): string {
  const said = book.sheet?.oil?.pressures.flatMap(({ lower, upper }) => lower ?? upper ?? [])[0];
  const read = said === undefined ? undefined : parseQuantity(said, 'pressure');
  return read?.ok ? read.value.unit : 'kPa';
}

/** Figures after the point of a pressure, as far as its doubt lets them stand. */
export const pressureDecimals = (unit: string): number => DECIMALS[unit] ?? 1;

/**
 * `7.9 ±0.8 psi`, `32 ±11 psi`, `75.0 ±0.03 psi`: a doubt of two significant figures at the most and never of
 * nothing; the value stops where its doubt does.
 */
export function pressureWords(q: Uncertain, unit: string): string {
  const usual = pressureDecimals(unit);
  const value = inUnit(q.value, unit);
  const U = inUnit(expanded(q).U, unit);
  if (!(U > 0)) return `${value.toFixed(usual)} ${unit}`;
  // Two figures from the first that is not zero.
  const decimals = Math.min(usual, Math.max(0, 1 - Math.floor(Math.log10(U))));
  const doubt = U.toFixed(decimals);
  return `${value.toFixed(decimals)} ±${Number(doubt) === 0 ? smallDoubt(U) : doubt} ${unit}`;
}

/** One significant figure, without an exponent: nobody at a bench reads 3e-2. */
const smallDoubt = (U: number): string => U.toFixed(Math.min(6, -Math.floor(Math.log10(U))));

/** What the sheet wants there, in words. */
export function wantedWords({ printed: { lower, upper } }: WantedPressure): string {
  if (lower !== undefined && upper !== undefined) return `${lower} to ${upper}`;
  return lower !== undefined ? `at least ${lower}` : `at most ${upper}`;
}

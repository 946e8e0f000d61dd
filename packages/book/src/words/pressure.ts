import { expanded, inUnit, parseQuantity, type Uncertain } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { WantedPressure } from '../oil/pressure-limit.ts';
import { doubted } from './doubt.ts';
import { DECIMALS } from './quantity.ts';

/** The unit of pressure the sheet speaks in. */
export function pressureUnit(book: Book): string {
  const said = book.sheet?.oil?.pressures.flatMap(({ lower, upper }) => lower ?? upper ?? [])[0];
  const read = said === undefined ? undefined : parseQuantity(said, 'pressure');
  return read?.ok ? read.value.unit : 'kPa';
}

/** Figures after the point of a pressure, as far as its doubt lets them stand. */
export const pressureDecimals = (unit: string): number => DECIMALS[unit] ?? 1;

/** `7.9 ±0.8 psi`, `32 ±11 psi`, `75.0 ±0.03 psi`, at about 95 %. */
export const pressureWords = (q: Uncertain, unit: string): string =>
  `${doubted(inUnit(q.value, unit), inUnit(expanded(q).U, unit), pressureDecimals(unit))} ${unit}`;

/** What the sheet wants there, in words. */
export function wantedWords({ printed: { lower, upper } }: WantedPressure): string {
  if (lower !== undefined && upper !== undefined) return `${lower} to ${upper}`;
  return lower !== undefined ? `at least ${lower}` : `at most ${upper}`;
}

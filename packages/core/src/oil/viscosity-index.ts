import type { SquareMetrePerSecond } from '../units/si.ts';
import { TABLE_H, TABLE_KV100, TABLE_L } from './viscosity-index-table.ts';

const MM2 = 1e-6;

/** Viscosity at 100 °C under which the index is not defined [mm²/s]. */
export const VI_LEAST_KV100 = 2;

/**
 * Viscosities at 40 °C of the two series of reference oils that share a viscosity at 100 °C.
 *
 *     from the table between 2 and 70 mm²/s, linear between its rows; above
 *     L = 0.8353 Y² + 14.67 Y − 216,   H = 0.1684 Y² + 11.85 Y − 97
 *
 * @param kv100  Y [m²/s]
 * @returns      L and H [mm²/s]
 * @source       astm-d2270
 */
export function referenceOils(kv100: SquareMetrePerSecond): { readonly l: number; readonly h: number } {
  const y = kv100 / MM2;
  if (y > 70) return { l: 0.8353 * y * y + 14.67 * y - 216, h: 0.1684 * y * y + 11.85 * y - 97 };
  const above = TABLE_KV100.findIndex((row) => row >= y);
  const i = Math.max(1, above);
  const from = TABLE_KV100[i - 1]!;
  const share = (y - from) / (TABLE_KV100[i]! - from);
  const between = (column: readonly number[]) => column[i - 1]! + share * (column[i]! - column[i - 1]!);
  return { l: between(TABLE_L), h: between(TABLE_H) };
}

/** Place of a viscosity between those of the two reference oils: 100 (L − U)/(L − H), in any one unit. @source astm-d2270 */
export const indexBetween = (l: number, h: number, u: number): number => (100 * (l - u)) / (l - h);

/**
 * Viscosity index, not rounded.
 *
 *     U ≥ H:  VI = 100 (L − U)/(L − H)
 *     U < H:  N = (log H − log U)/log Y,  VI = (10^N − 1)/0.00715 + 100
 *
 * @param kv40   U [m²/s]
 * @param kv100  Y, from 2 mm²/s [m²/s]
 * @source       astm-d2270
 */
export function viscosityIndex(kv40: SquareMetrePerSecond, kv100: SquareMetrePerSecond): number {
  const u = kv40 / MM2;
  const { l, h } = referenceOils(kv100);
  if (u >= h) return indexBetween(l, h, u);
  const n = Math.log10(h / u) / Math.log10(kv100 / MM2);
  return (10 ** n - 1) / 0.00715 + 100;
}

/** The index as the standard reports it: the nearest whole number, a half to the even one. */
export function roundedIndex(index: number): number {
  const floor = Math.floor(index);
  const half = index - floor === 0.5;
  return half ? floor + (floor % 2 === 0 ? 0 : 1) : Math.round(index);
}

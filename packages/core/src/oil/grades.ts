import type { PascalSecond, SquareMetrePerSecond } from '../units/si.ts';

/** Limits of a grade for a warm engine: viscosity at 100 °C [mm²/s] and at 150 °C under shear [mPa·s]. */
export interface WarmGrade {
  readonly name: string;
  readonly kv100Min: number;
  /** The grade ends just under this. */
  readonly kv100Below: number;
  readonly hthsMin: number;
}

/** Limits of a W grade for a cold engine, and its least viscosity at 100 °C. */
export interface WinterGrade {
  readonly name: string;
  /** [mPa·s] at `crankingAt` [°C] */
  readonly crankingMax: number;
  readonly crankingAt: number;
  /** [mPa·s] at `pumpingAt` [°C], without yield stress */
  readonly pumpingMax: number;
  readonly pumpingAt: number;
  readonly kv100Min: number;
}

/**
 * Engine-oil grades for a warm engine. 8 to 20 overlap in viscosity, so the HTHS decides between them.
 * Straight 40 and the 15W to 25W want an HTHS of 3.7, the 0W to 10W only 3.5.
 *
 * @source sae-j300
 */
export const WARM_GRADES: readonly WarmGrade[] = [
  { name: '8', kv100Min: 4.0, kv100Below: 6.1, hthsMin: 1.7 },
  { name: '12', kv100Min: 5.0, kv100Below: 7.1, hthsMin: 2.0 },
  { name: '16', kv100Min: 6.1, kv100Below: 8.2, hthsMin: 2.3 },
  { name: '20', kv100Min: 6.9, kv100Below: 9.3, hthsMin: 2.6 },
  { name: '30', kv100Min: 9.3, kv100Below: 12.5, hthsMin: 2.9 },
  { name: '40', kv100Min: 12.5, kv100Below: 16.3, hthsMin: 3.5 },
  { name: '50', kv100Min: 16.3, kv100Below: 21.9, hthsMin: 3.7 },
  { name: '60', kv100Min: 21.9, kv100Below: 26.1, hthsMin: 3.7 },
];

/** HTHS that a straight 40, a 15W-40, 20W-40 and 25W-40 want [mPa·s]. */
export const HTHS_OF_HEAVY_40 = 3.7;

/** @source sae-j300 */
export const WINTER_GRADES: readonly WinterGrade[] = [
  { name: '0W', crankingMax: 6200, crankingAt: -35, pumpingMax: 60000, pumpingAt: -40, kv100Min: 3.8 },
  { name: '5W', crankingMax: 6600, crankingAt: -30, pumpingMax: 60000, pumpingAt: -35, kv100Min: 3.8 },
  { name: '10W', crankingMax: 7000, crankingAt: -25, pumpingMax: 60000, pumpingAt: -30, kv100Min: 4.1 },
  { name: '15W', crankingMax: 7000, crankingAt: -20, pumpingMax: 60000, pumpingAt: -25, kv100Min: 5.6 },
  { name: '20W', crankingMax: 9500, crankingAt: -15, pumpingMax: 60000, pumpingAt: -20, kv100Min: 5.6 },
  { name: '25W', crankingMax: 13000, crankingAt: -10, pumpingMax: 60000, pumpingAt: -15, kv100Min: 9.3 },
];

/** Least viscosity of a 20 until April 2013 [mm²/s]: for oils sold or specified before. */
export const OLD_20_KV100 = 5.6;

/** A limit printed to a tenth must not be missed by the rounding of a unit. */
const SLACK = 1e-9;

/**
 * Warm grades that an oil meets.
 *
 * @param kv100  [m²/s]
 * @param hths   at 150 °C and 10⁶ 1/s [Pa·s]; when not given only the viscosity at 100 °C is weighed
 * @source       sae-j300
 */
export function warmGrades(kv100: SquareMetrePerSecond, hths?: PascalSecond): string[] {
  const v = kv100 * 1e6;
  return WARM_GRADES.filter(
    (g) =>
      v + SLACK >= g.kv100Min &&
      v + SLACK < g.kv100Below &&
      (hths === undefined || hths * 1e3 + SLACK >= g.hthsMin),
  ).map((g) => g.name);
}

/** W grades whose least viscosity at 100 °C an oil meets; the cold tests it must pass besides are not weighed. */
export const winterGrades = (kv100: SquareMetrePerSecond): string[] =>
  WINTER_GRADES.filter((g) => kv100 * 1e6 + SLACK >= g.kv100Min).map((g) => g.name);

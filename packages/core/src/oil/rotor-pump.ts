import {
  type CubicMetre,
  type CubicMetrePerSecond,
  cubicMetre,
  cubicMetrePerSecond,
  type Metre,
  type Pascal,
  type PascalSecond,
  type SquareMetre,
} from '../units/si.ts';
import { slotFlow } from './gear-pump.ts';

/**
 * Volume that a pump of one rotor inside another delivers in a turn of its shaft.
 *
 *     V = z (A_max − A_min) b
 *
 * The outer rotor has z + 1 chambers, each fills and empties once in a turn of it, and it turns z/(z + 1) times as
 * fast as the inner one on the shaft.
 *
 * @param teeth      z, of the inner rotor
 * @param greatest   A_max, of the chamber when it is widest, seen from the end [m²]
 * @param least      A_min, of the same chamber in full mesh [m²]
 * @param thickness  b, of the rotors [m]
 * @returns          V [m³/rev]
 * @source           definition
 */
export const rotorPumpDisplacement = (
  teeth: number,
  greatest: SquareMetre,
  least: SquareMetre,
  thickness: Metre,
): CubicMetre => cubicMetre(teeth * (greatest - least) * thickness);

/**
 * Length of a flat slot that passes as much as two round tips which come nearest at the gap.
 *
 *     l = ∫ (t/h)³ dx = (3π/8) √(2 R t),   h = t + x²/(2R),   1/R = 1/R1 + 1/R2
 *
 * @param radius  R, of both tips together [m]
 * @param gap     t [m]
 * @source        slot-flow, integrated
 */
export const roundTipLength = (radius: Metre, gap: Metre): number =>
  ((3 * Math.PI) / 8) * Math.sqrt(2 * radius * gap);

/**
 * Slip from one tip to the next between inner and outer rotor.
 *
 *     Q = b t³ p / (12 μ n l)
 *
 * @param thickness  b, of the rotors [m]
 * @param inSeries   n, pairs of tips that seal one behind the other
 * @source           slot-flow
 */
export const rotorTipSlip = (
  thickness: Metre,
  gap: Metre,
  radius: Metre,
  inSeries: number,
  pressure: Pascal,
  viscosity: PascalSecond,
): CubicMetrePerSecond =>
  gap === 0
    ? cubicMetrePerSecond(0)
    : slotFlow(thickness, gap, roundTipLength(radius, gap) * inSeries, pressure, viscosity);

import {
  type KilogramPerCubicMetre,
  type Metre,
  metre,
  type Pascal,
  pascal,
  type RadianPerSecond,
  radianPerSecond,
} from '../units/si.ts';
import { GRAVITY } from './air.ts';

/** A pump as an air pump: what it sweeps, and what its gaps let back. */
export interface DryPump {
  /** V, in one turn [m³] */
  readonly displacement: number;
  /** C, of all its gaps together with air in them: flow per pressure difference [m³/(s Pa)] */
  readonly conductance: number;
}

/**
 * Lowest pressure a dry pump can draw at its inlet, where what it sweeps is what leaks back.
 *
 *     V n p1 = C (p2² − p1²)/2,   s = V n/(C p2),   p1 = p2 (√(s² + 1) − s)
 *
 * Isothermal air in laminar slots. What the mesh carries over is left out: the true depression is smaller.
 *
 * @param speed   of the pump [rad/s], n = ω/(2 π)
 * @param outlet  p2, absolute [Pa]
 * @returns       p1, absolute [Pa]
 * @source        dry-pump-balance
 */
export function dryInletPressure(pump: DryPump, speed: RadianPerSecond, outlet: Pascal): Pascal {
  if (pump.conductance === 0) return pascal(0);
  const s = (pump.displacement * speed) / (2 * Math.PI * pump.conductance * outlet);
  // √(s² + 1) − s without the loss of digits where s is large.
  return pascal(outlet / (Math.sqrt(s * s + 1) + s));
}

/** Depression at the inlet that pumps are kept under, 5 inHg: below it dissolved air comes out. @source inlet-depression-practice */
export const INLET_DEPRESSION_PRACTICE: Pascal = pascal(16_932);

/** Height of oil that a pressure difference holds up: H = Δp/(ρ g). @source definition */
export const liftOf = (difference: Pascal, density: KilogramPerCubicMetre): Metre =>
  metre(difference / (density * GRAVITY));

/** Pressure under a column of oil: Δp = ρ g H. @source definition */
export const pressureOfLift = (height: Metre, density: KilogramPerCubicMetre): Pascal =>
  pascal(height * density * GRAVITY);

/**
 * Speed from which a dry pump lifts oil to a height.
 *
 *     n = C (p2² − p1²)/(2 V p1),   p1 = p2 − ρ g H
 *
 * @returns  of the pump [rad/s]; infinite where the column weighs more than the air outside
 * @source   dry-pump-balance
 */
export function speedToLift(
  pump: DryPump,
  height: Metre,
  density: KilogramPerCubicMetre,
  outlet: Pascal,
): RadianPerSecond {
  const inlet = outlet - pressureOfLift(height, density);
  if (inlet <= 0) return radianPerSecond(Number.POSITIVE_INFINITY);
  return radianPerSecond(
    (Math.PI * pump.conductance * (outlet * outlet - inlet * inlet)) / (pump.displacement * inlet),
  );
}

/**
 * Time to draw a closed volume down by a pump that sweeps a constant volume.
 *
 *     t = (V/S) ln((p0 − p∞)/(p1 − p∞))
 *
 * @param volume    V [m³]
 * @param swept     S [m³/s]
 * @param from      p0, absolute [Pa]
 * @param to        p1, absolute [Pa]
 * @param ultimate  p∞, the lowest the pump can hold [Pa]
 * @returns         t [s]; infinite where p1 is not above p∞
 * @source          evacuation-time
 */
export const evacuationTime = (
  volume: number,
  swept: number,
  from: Pascal,
  to: Pascal,
  ultimate = pascal(0),
): number =>
  to > ultimate ? (volume / swept) * Math.log((from - ultimate) / (to - ultimate)) : Number.POSITIVE_INFINITY;

import {
  type CubicMetre,
  metre,
  type Pascal,
  pascal,
  type Radian,
  type RadianPerSecond,
  radian,
  type Watt,
} from '../units/si.ts';
import { distanceFromTop, type SliderCrank } from './piston-motion.ts';

/**
 * Ratio left when the inlet closes late, 1 + (CR − 1) x(IVC)/2r for a centred mechanism. Geometry only: a running
 * engine's charge has its own momentum.
 *
 * @param closing  inlet closing after bottom dead centre [rad]
 * @source heywood-1988
 */
export function dynamicCompression(
  ratio: number,
  crank: SliderCrank,
  closing: Radian,
): { readonly fraction: number; readonly ratio: number } {
  const centred = { ...crank, offset: metre(0) };
  const fraction = distanceFromTop(centred, radian(Math.PI + closing)) / (2 * crank.crankRadius);
  return { fraction, ratio: 1 + (ratio - 1) * fraction };
}

/** Volume above the piston over the clearance volume, 1 + (CR − 1) x/2r. @source heywood-1988 */
export function volumeRatio(ratio: number, crank: SliderCrank, angle: Radian): number {
  return 1 + ((ratio - 1) * distanceFromTop(crank, angle)) / (2 * crank.crankRadius);
}

/** Compression ratio of an isentropic rise between two absolute temperatures, (T2/T1)^(1/(γ − 1)). */
export function isentropicRatio(before: number, after: number, heatRatio: number): number {
  return (after / before) ** (1 / (heatRatio - 1));
}

/** Brake mean effective pressure of a four-stroke, P · 2 turns/V [Pa]. @source heywood-1988 */
export function brakeMeanPressure(power: Watt, displacement: CubicMetre, speed: RadianPerSecond): Pascal {
  return pascal((power * 4 * Math.PI) / (displacement * speed));
}

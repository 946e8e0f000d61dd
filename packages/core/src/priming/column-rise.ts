import type { KilogramPerCubicMetre, Metre, Pascal, PascalSecond } from '../units/si.ts';
import { GRAVITY } from './air.ts';

/**
 * Time in which oil climbs an empty upright tube under a constant suction.
 *
 *     t = (8 μ/(ρ g r²)) (−H − h ln(1 − H/h)),   h = Δp/(ρ g)
 *
 * Viscous only: inertia, entry and strainer are left out, so thin oil in a wide pipe takes longer than this says.
 *
 * @param radius   r, of the tube [m]
 * @param suction  Δp [Pa]
 * @param height   H [m]
 * @returns        t [s]; infinite where the suction does not hold the column
 * @source         washburn-with-gravity
 */
export function columnRiseTime(
  radius: Metre,
  suction: Pascal,
  height: Metre,
  density: KilogramPerCubicMetre,
  viscosity: PascalSecond,
): number {
  const held = suction / (density * GRAVITY);
  if (!(held > height)) return Number.POSITIVE_INFINITY;
  // log1p keeps the digits where the suction is far more than the column wants.
  const climbed = -height - held * Math.log1p(-height / held);
  return ((8 * viscosity) / (density * GRAVITY * radius * radius)) * climbed;
}

import { type BearingShape, padsOf } from './supply.ts';

/**
 * The short bearing without dimensions, for guesses to begin with and for the spacing of a table.
 *
 *     W c²/(μ ω R⁴) = 2 (L/D)³ ε/(1−ε²)² √(16 ε² + π² (1−ε²)),  two lands carry twice as much as one
 *
 * @source naca-1157
 */
export function shortLoad(shape: BearingShape, e: number): number {
  const q = 1 - e * e;
  const { supply, lengthOverDiameter } = shape;
  const grooved = supply.kind === 'full-groove';
  const land = grooved ? (lengthOverDiameter * (1 - supply.width)) / 2 : lengthOverDiameter;
  return (((grooved ? 4 : 2) * land ** 3 * e) / (q * q)) * Math.sqrt(16 * e * e + Math.PI * Math.PI * q);
}

/** ε at which a short bearing carries a load, by halving. */
export function shortEccentricity(shape: BearingShape, load: number): number {
  let [low, high] = [1e-6, 0.9999];
  for (let k = 0; k < 40; k++) {
    const e = (low + high) / 2;
    if (shortLoad(shape, e) < load) low = e;
    else high = e;
  }
  return low;
}

/** φ of the short bearing. */
export const shortAttitude = (e: number): number => Math.atan2(Math.PI * Math.sqrt(1 - e * e), 4 * e);

/** What a load of Sommerfeld number S is worth in μ ω R⁴/c²: 2 (L/D)/(π S); and S of a load, the same way. */
export const loadOrSommerfeld = (value: number, lengthOverDiameter: number): number =>
  (2 * lengthOverDiameter) / (Math.PI * value);

/** Whether the supply lies the same wherever the load points. */
export const turnsWithGap = (shape: BearingShape): boolean => padsOf(shape).length === 0;

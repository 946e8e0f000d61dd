import {
  type Metre,
  type Newton,
  type NewtonPerMetre,
  newton,
  type Pascal,
  pascal,
  type SquareMetre,
} from '../units/si.ts';

/**
 * Force of a spring that is held shorter than it lies free.
 *
 *     F0 = k (L0 − L1)
 *
 * @param rate       k [N/m]
 * @param free       L0 [m]
 * @param installed  L1, with the valve shut [m]
 * @source           definition
 */
export const preloadFromLengths = (rate: NewtonPerMetre, free: Metre, installed: Metre): Newton =>
  newton(rate * (free - installed));

/**
 * Pressure at which the plunger leaves its seat.
 *
 *     p_c = F0 / A
 *
 * @param preload  F0 [N]
 * @param area     A, of the plunger that the pressure pushes [m²]
 * @source         relief-valve-balance
 */
export const crackingPressure = (preload: Newton, area: SquareMetre): Pascal => pascal(preload / area);

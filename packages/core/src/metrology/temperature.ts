import { propagated, type Uncertain } from '../uncertainty/uncertain.ts';
import { type Celsius, type Metre, metre, type PerKelvin } from '../units/si.ts';

/** Lengths are stated at 20 °C. @source iso-1 */
export const REFERENCE_CELSIUS = 20;

/** Where a single mean coefficient still describes a metal well. */
export const LENGTH_AT_20_RANGE =
  'part between −40 and 150 °C, one mean coefficient of expansion over that span';

/**
 * Length a part would have at the reference temperature of 20 °C.
 *
 *     L20 = L / (1 + α (t − 20))
 *
 * @param length     L, as measured [m]
 * @param part       t, of the part itself, not of the room [°C]
 * @param expansion  α, mean linear expansion of the material [1/K]
 * @returns          L20 [m]
 * @valid   LENGTH_AT_20_RANGE
 * @source  iso-1 for the 20 °C; the formula is the definition of α
 * @example lengthAt20(metre(0.05), celsius(30), perKelvin(11.5e-6)) // 0.0499942507
 */
export const lengthAt20 = (length: Metre, part: Celsius, expansion: PerKelvin): Metre =>
  metre(length / (1 + expansion * (part - REFERENCE_CELSIUS)));

/** The length at another temperature, from the one at 20 °C: `lengthAt20` the other way round. */
export const lengthAtTemperature = (length20: Metre, part: Celsius, expansion: PerKelvin): Metre =>
  metre(length20 * (1 + expansion * (part - REFERENCE_CELSIUS)));

export interface Warmth {
  /** [°C] */
  readonly temperature: Uncertain;
  /** Mean linear expansion [1/K]. */
  readonly expansion: Uncertain;
}

/**
 * Length at 20 °C when the scale is warm too, with what the temperatures and coefficients leave in doubt.
 *
 *     L20 = reading (1 + α_s (t_s − 20)) / (1 + α_p (t_p − 20))
 *
 * A thermometer used for both is one source, and cancels as far as the materials are alike.
 *
 * @param reading of the scale [m]
 * @param scale   absent when the instrument is at 20 °C or corrects itself
 * @source iso-1 for the 20 °C; the formula follows from the definition of α
 */
export const measuredAt20 = (reading: Uncertain, part: Warmth, scale?: Warmth): Uncertain =>
  propagated(
    ([length = 0, t = 0, a = 0, ts = REFERENCE_CELSIUS, as = 0]) =>
      (length * (1 + as * (ts - REFERENCE_CELSIUS))) / (1 + a * (t - REFERENCE_CELSIUS)),
    [reading, part.temperature, part.expansion, ...(scale ? [scale.temperature, scale.expansion] : [])],
  );

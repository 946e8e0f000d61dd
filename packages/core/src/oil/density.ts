import { type Celsius, type KilogramPerCubicMetre, kilogramPerCubicMetre } from '../units/si.ts';

/**
 * Thermal expansion of a lubricating oil at the base temperature.
 *
 *     α = K1 / ρ_base       K1 = 0.34878 per °F at 60 °F, 0.6278 per K at 15 °C
 *
 * @param k1    the constant that belongs to the base temperature
 * @param base  density at the base temperature [kg/m³]
 * @source      api-mpms-11-1
 */
const expansionAtBase = (k1: number, base: KilogramPerCubicMetre): number => k1 / base;

/** K1 of lubricating oils; per °F with a 60 °F base, per K with a 15 °C base. */
const K1_60F = 0.34878;
const K1_15C = 0.6278;

/**
 * Volume at the base temperature over volume at a temperature.
 *
 *     VCF = exp[−α Δt (1 + 0.8 α Δt)]
 */
const volumeCorrection = (alpha: number, rise: number): number =>
  Math.exp(-alpha * rise * (1 + 0.8 * alpha * rise));

/**
 * Density of a lubricating oil from its density at 15 °C.
 *
 * @param density15    [kg/m³]
 * @param temperature  [°C]
 * @returns            ρ [kg/m³]
 * @source             api-mpms-11-1
 * @example densityAt(kilogramPerCubicMetre(880), celsius(100)) // 825.8
 */
export function densityAt(density15: KilogramPerCubicMetre, temperature: Celsius): KilogramPerCubicMetre {
  return kilogramPerCubicMetre(
    density15 * volumeCorrection(expansionAtBase(K1_15C, density15), temperature - 15),
  );
}

/** The same from the density at 60 °F, as American sheets print it. */
export function densityFrom60F(density60: KilogramPerCubicMetre, temperature: Celsius) {
  const alpha = expansionAtBase(K1_60F, density60);
  const factor = volumeCorrection(alpha, temperature * 1.8 + 32 - 60);
  return { expansion: alpha, factor, density: kilogramPerCubicMetre(density60 * factor) };
}

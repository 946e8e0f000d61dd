import {
  type CubicMetrePerSecond,
  cubicMetrePerSecond,
  type KilogramPerCubicMetre,
  type Metre,
  type Pascal,
  type PascalSecond,
} from '../units/si.ts';

/** Usual discharge coefficients of a sharp edge, and the contraction π/(π + 2) of a sharp slot behind them. @source orifice-equation */
export const SHARP_EDGE = { min: 0.6, max: 0.65, slotContraction: Math.PI / (Math.PI + 2) } as const;

/**
 * Flow through a sharp-edged hole.
 *
 *     Q = Cd A √(2 Δp/ρ),  A = π d²/4
 *
 * @param diameter     d [m]
 * @param coefficient  Cd
 * @param difference   Δp, zero or more [Pa]
 * @param density      ρ [kg/m³]
 * @valid              a high Reynolds number; cold oil flows less
 * @source             orifice-equation
 */
export function orificeFlow(
  diameter: Metre,
  coefficient: number,
  difference: Pascal,
  density: KilogramPerCubicMetre,
): CubicMetrePerSecond {
  const area = (Math.PI / 4) * diameter * diameter;
  return cubicMetrePerSecond(coefficient * area * Math.sqrt((2 * difference) / density));
}

/**
 * Discharge coefficient of a long hole.
 *
 *     1/Cd = 1/Cdu + (20/Re)(1 + 2.25 L/d) − 0.005 (L/d)/(1 + 7.5 [log10(0.00015 Re)]²),
 *     Cdu = 0.827 − 0.0085 L/d
 *
 * @param reynolds  on the ideal velocity √(2 Δp/ρ)
 * @valid           2 ≤ L/d ≤ 10, 10 ≤ Re ≤ 20 000
 * @source          lichtarowicz
 */
export function longHoleCoefficient(reynolds: number, lengthOverDiameter: number): number {
  const x = lengthOverDiameter;
  return (
    1 /
    (1 / (0.827 - 0.0085 * x) +
      (20 / reynolds) * (1 + 2.25 * x) -
      (0.005 * x) / (1 + 7.5 * Math.log10(0.00015 * reynolds) ** 2))
  );
}

/**
 * Discharge coefficient of a short tube, x = d Re/L on the actual mean velocity.
 *
 *     [1.5 + 13.74 √(1/x)]^−½ above x = 50,   [2.28 + 64/x]^−½ below; the branches miss each other by 2 %
 *
 * @source merritt
 */
export const shortTubeCoefficient = (x: number): number =>
  x > 50 ? 1 / Math.sqrt(1.5 + 13.74 / Math.sqrt(x)) : 1 / Math.sqrt(2.28 + 64 / x);

/**
 * Creeping flow through a sharp hole, the limit of a cold start.
 *
 *     Q = π d³ Δp / (50.4 μ)
 *
 * @source wuest
 */
export const creepingHoleFlow = (diameter: Metre, difference: Pascal, viscosity: PascalSecond) =>
  cubicMetrePerSecond((Math.PI * diameter ** 3 * difference) / (50.4 * viscosity));

/**
 * What joins the creeping limit of a sharp hole to its jet: with p0 in
 *
 *     Q = Cd A √(2/ρ) Δp/√(Δp + p0),  p0 = k μ²/ρ,  k = 2 (12.6 Cd/d)²
 *
 * the flow is the creeping one at small Δp, the jet's at large, and 1/Q² is the sum of both 1/Q² between.
 *
 * @returns k [1/m²]
 * @valid   the two ends are the sources'; between them nothing is published that this was held against
 * @source  wuest
 */
export const creepOfHole = (diameter: Metre, coefficient: number): number =>
  2 * ((12.6 * coefficient) / diameter) ** 2;

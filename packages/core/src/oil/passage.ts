import {
  type CubicMetrePerSecond,
  type KilogramPerCubicMetre,
  type Metre,
  type Pascal,
  type PascalSecond,
  pascal,
  type RadianPerSecond,
} from '../units/si.ts';

/** Laminar below the first, surely turbulent above the second; between them nobody knows. */
export const REYNOLDS_TRANSITION = { laminar: 2300, turbulent: 4000 } as const;

/** Re = ρ v d/μ from the flow. */
export const reynoldsNumber = (
  diameter: Metre,
  flow: CubicMetrePerSecond,
  density: KilogramPerCubicMetre,
  viscosity: PascalSecond,
): number => (4 * density * flow) / (Math.PI * diameter * viscosity);

/**
 * Darcy friction factor: 64/Re laminar, Colebrook and White from Re 2300.
 *
 *     1/√f = −2 log10( (ε/d)/3.7 + 2.51/(Re √f) )
 *
 * @param reynolds   over 0
 * @param roughness  ε/d, 0 for smooth
 * @source           colebrook-white
 */
export function frictionFactor(reynolds: number, roughness: number): number {
  if (reynolds < REYNOLDS_TRANSITION.laminar) return 64 / reynolds;
  // x = 1/√f; the fixed point contracts by at least four a step here.
  let x = 7;
  for (let i = 0; i < 60; i++) {
    const next = -2 * Math.log10(roughness / 3.7 + (2.51 * x) / reynolds);
    if (Math.abs(next - x) < 1e-14 * x) return 1 / (next * next);
    x = next;
  }
  return 1 / (x * x);
}

/**
 * Pressure lost by friction along a passage.
 *
 *     Δp = f (L/d) ρ v²/2
 *
 * @source colebrook-white
 */
export function pressureLoss(
  diameter: Metre,
  length: Metre,
  flow: CubicMetrePerSecond,
  density: KilogramPerCubicMetre,
  factor: number,
): Pascal {
  const v = (4 * flow) / (Math.PI * diameter * diameter);
  return pascal((factor * length * density * v * v) / (2 * diameter));
}

/**
 * Pressure that a turning drilling adds between two radii.
 *
 *     Δp = ½ ρ ω² (r2² − r1²)
 *
 * @source definition
 */
export const centrifugalHead = (
  density: KilogramPerCubicMetre,
  speed: RadianPerSecond,
  inner: Metre,
  outer: Metre,
): Pascal => pascal(0.5 * density * speed * speed * (outer * outer - inner * inner));

/**
 * The gap round a bearing, h/c = 1 + ε cos θ with θ from the widest gap in the sense of rotation, and its integrals.
 * They are elementary in Sommerfeld's angle γ,
 *
 *     1 + ε cos θ = (1 − ε²)/(1 − ε cos γ),   dθ = √(1 − ε²) dγ/(1 − ε cos γ)
 *
 * which also spreads points as the pressure wants them: even steps of γ crowd where the gap is narrow.
 */
const lead = (e: number): number => e / (1 + Math.sqrt(1 - e * e));

/** γ at θ; both go once round together. Without the branches of the usual tan(θ/2). */
export function sommerfeldAngle(e: number, theta: number): number {
  const b = lead(e);
  return theta - 2 * Math.atan((b * Math.sin(theta)) / (1 + b * Math.cos(theta)));
}

/** θ at γ. */
export function gapAngle(e: number, gamma: number): number {
  const b = lead(e);
  return gamma + 2 * Math.atan((b * Math.sin(gamma)) / (1 - b * Math.cos(gamma)));
}

/** ∫ dθ/h², from γ = 0. */
export const inverseSquareIntegral = (e: number, gamma: number): number =>
  (gamma - e * Math.sin(gamma)) / (1 - e * e) ** 1.5;

/** ∫ dθ/h³, from γ = 0. */
export const inverseCubeIntegral = (e: number, gamma: number): number =>
  (gamma * (1 + (e * e) / 2) - 2 * e * Math.sin(gamma) + (e * e * Math.sin(2 * gamma)) / 4) /
  (1 - e * e) ** 2.5;

/** ∫ h³ dθ, from θ = 0. */
export function cubeIntegral(e: number, theta: number): number {
  const s = Math.sin(theta);
  return (
    theta + 3 * e * s + 3 * e * e * (theta / 2 + Math.sin(2 * theta) / 4) + e * e * e * (s - (s * s * s) / 3)
  );
}

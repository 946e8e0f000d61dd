import {
  type CubicMetrePerSecond,
  cubicMetrePerSecond,
  type Metre,
  type Pascal,
  type PascalSecond,
} from '../units/si.ts';

/**
 * Growth of the leak of an annular gap with eccentricity, averaged once round.
 *
 *     mean of (1 + ε cos θ)³ = 1 + 1.5 ε²
 */
export const eccentricAnnulus = (e: number): number => 1 + 1.5 * e * e;

/**
 * Leak along an annular gap.
 *
 *     Q = π D c³ Δp (1 + 1.5 ε²) / (12 μ l)
 *
 * @param diameter    D, mean [m]
 * @param length      l, along the flow [m]
 * @param clearance   c, radial [m]
 * @param e           ε, 0 concentric to 1 touching
 * @param difference  Δp [Pa]
 * @param viscosity   μ [Pa·s]
 * @returns           Q [m³/s]
 * @source            annular-gap
 */
export function annulusLeak(
  diameter: Metre,
  length: Metre,
  clearance: Metre,
  e: number,
  difference: Pascal,
  viscosity: PascalSecond,
): CubicMetrePerSecond {
  return cubicMetrePerSecond(
    (Math.PI * diameter * clearance ** 3 * difference * eccentricAnnulus(e)) / (12 * viscosity * length),
  );
}

/**
 * Flow that the supply pressure drives out of a full circumferential groove, through both lands.
 *
 *     Q = π D c³ p (1 + 1.5 ε²) / (6 μ l')
 *
 * @param diameter   D of the journal [m]
 * @param land       l', length of one land [m]
 * @param clearance  c, radial [m]
 * @source           shigley-12-22
 */
export function grooveFeed(
  diameter: Metre,
  land: Metre,
  clearance: Metre,
  e: number,
  supply: Pascal,
  viscosity: PascalSecond,
): CubicMetrePerSecond {
  return cubicMetrePerSecond(2 * annulusLeak(diameter, land, clearance, e, supply, viscosity));
}

/** Hole factor of ISO 7902-2, x = hole diameter over bearing length. */
export const holeFactor = (x: number): number => 1.204 + 0.368 * x - 1.046 * x * x + 1.942 * x ** 3;

/** Pocket factor of ISO 7902-2, x = pocket width over bearing length. */
export const pocketFactor = (x: number): number => 1.188 + 1.582 * x - 2.585 * x * x + 5.563 * x ** 3;

/** Where the hole lies: at the widest gap all the time, or passing every gap once a turn. */
export type HolePlace = 'widest' | 'rotating';

/** Growth with eccentricity of the flow out of a hole: (1 + ε)³ at the widest gap, 1 + 1.5 ε² as a mean over a turn. */
export const holeEccentricity = (place: HolePlace, e: number): number =>
  place === 'widest' ? (1 + e) ** 3 : eccentricAnnulus(e);

/**
 * Dimensionless feed of one hole (or pocket) at the widest gap.
 *
 *     Qp* = (π/48) (1 + ε)³ / [ln(B/d) q(d/B)]
 *
 * @param x       hole diameter (pocket width) over bearing length, under 1
 * @param factor  q, `holeFactor` or `pocketFactor`
 * @source        iso-7902-2
 */
export const dimensionlessFeed = (x: number, e: number, factor: (x: number) => number): number =>
  ((Math.PI / 48) * holeEccentricity('widest', e)) / (-Math.log(x) * factor(x));

/**
 * Flow that the supply pressure drives out of one oil hole.
 *
 *     Q = 8 c³ p/μ · (π/48) f(ε) / [ln(B/d) q(d/B)]
 *
 * @param length     B, of the whole bearing [m]
 * @param hole       d [m], under B
 * @param clearance  c, radial [m]
 * @param place      f = (1 + ε)³ for a hole at the widest gap, 1 + 1.5 ε² for one that passes every gap in a turn
 * @valid            hole to half the bearing length; exact theory gives 6 to 11 % more, so a 10 % quantity
 * @source           iso-7902-2
 */
export function holeFeed(
  length: Metre,
  hole: Metre,
  clearance: Metre,
  e: number,
  supply: Pascal,
  viscosity: PascalSecond,
  place: HolePlace,
): CubicMetrePerSecond {
  const x = hole / length;
  return cubicMetrePerSecond(
    (((8 * clearance ** 3 * supply) / viscosity) * ((Math.PI / 48) * holeEccentricity(place, e))) /
      (-Math.log(x) * holeFactor(x)),
  );
}

/**
 * Feed of a half (180°) groove on the thick side, over that of a concentric half groove.
 *
 *     1 + 1.5 ε² + (6 ε + 1.33 ε³)/π
 *
 * @source iso-7902-2
 */
export const halfGrooveFactor = (e: number): number => 1 + 1.5 * e * e + (6 * e + (4 / 3) * e ** 3) / Math.PI;

/**
 * Side flow that the turning journal itself drives, ISO form, 360° bearing.
 *
 *     Q3* = 0.25 [B/D − 0.223 (B/D)³] ε,   Q3 = D³ ψ ω Q3*
 *
 * @source iso-7902-1
 */
export const dimensionlessSideFlow = (b: number, e: number): number => 0.25 * (b - 0.223 * b ** 3) * e;

/**
 * Exact flow of a small hole into a concentric strip, times 12 μ/(h³ p).
 *
 *     12 μ Q/(h³ p) = 2 π / ln(4 B/(π d))
 *
 * @source hole-in-strip
 */
export const exactHoleConductance = (x: number): number => (2 * Math.PI) / Math.log(4 / (Math.PI * x));

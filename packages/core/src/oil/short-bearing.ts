import type { Metre, MetrePerSecond, Newton, PascalSecond, RadianPerSecond } from '../units/si.ts';

/** Side of the load equation that depends on the eccentricity ratio alone. */
const loadFunction = (e: number): number => {
  const q = 1 - e * e;
  return (e / (q * q)) * Math.sqrt(16 * e * e + Math.PI * Math.PI * q);
};

/**
 * Eccentricity ratio at which a short bearing carries a load.
 *
 *     ε/(1−ε²)² √(16 ε² + π² (1−ε²)) = 4 W c² / (μ U L³)
 *
 * @param load       W of one land [N]
 * @param clearance  c, radial [m]
 * @param viscosity  μ [Pa·s]
 * @param speed      U of the surface [m/s]
 * @param length     L of the land [m]
 * @returns          ε, from 0 to under 1; a bearing that does not turn touches
 * @valid            L/D to about 1/4; at ε 0.8 its load is 16 % low there
 * @source           naca-1157
 */
export function shortBearingEccentricity(
  load: Newton,
  clearance: Metre,
  viscosity: PascalSecond,
  speed: MetrePerSecond,
  length: Metre,
): number {
  const wanted = (4 * load * clearance * clearance) / (viscosity * speed * length ** 3);
  if (wanted === 0) return 0;
  if (!(wanted < 1e12)) return 1;
  // The left side grows from 0 to infinity, so a bracket always holds the answer; Newton only shortens the way.
  let low = 0;
  let high = 1;
  let e = wanted < 1 ? wanted / 4 : 1 - 1 / (2 + Math.sqrt(wanted));
  for (let i = 0; i < 100; i++) {
    const miss = Math.log(loadFunction(e) / wanted);
    if (miss > 0) high = e;
    else low = e;
    const q = 1 - e * e;
    const root = 16 * e * e + Math.PI * Math.PI * q;
    const slope = 1 / e + (4 * e) / q + (e * (16 - Math.PI * Math.PI)) / root;
    const next = e - miss / slope;
    const inside = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(inside - e) <= 1e-15 + 1e-14 * (1 - inside)) return inside;
    e = inside;
  }
  return e;
}

/**
 * Load of a short bearing at an eccentricity ratio.
 *
 *     W = μ ω r L³ ε / (4 c² (1−ε²)²) √(π² (1−ε²) + 16 ε²)
 *
 * @source naca-1157
 */
export function shortBearingLoad(
  e: number,
  radius: Metre,
  length: Metre,
  clearance: Metre,
  viscosity: PascalSecond,
  speed: RadianPerSecond,
): number {
  return ((viscosity * speed * radius * length ** 3) / (4 * clearance ** 2)) * loadFunction(e);
}

/**
 * Numbers of the short bearing that depend on L/D and ε alone.
 *
 *     S (L/D)² = (1−ε²)² / (π ε √(π²(1−ε²) + 16 ε²)),  φ = atan(π √(1−ε²) / (4 ε)),
 *     Qs/(r c N L) = 2 π ε,  cos θ_m = (1 − √(1 + 24 ε²)) / (4 ε)
 *
 * @returns  Sommerfeld number, attitude angle [rad], side flow variable, place of the greatest pressure from
 *           the widest gap [rad]
 * @source   naca-1157
 */
export function shortBearing(lengthOverDiameter: number, e: number) {
  const q = 1 - e * e;
  const s = (q * q) / (Math.PI * e * Math.sqrt(Math.PI ** 2 * q + 16 * e * e)) / lengthOverDiameter ** 2;
  return {
    sommerfeldNumber: s,
    attitudeAngle: Math.atan((Math.PI * Math.sqrt(q)) / (4 * e)),
    sideFlowVariable: 2 * Math.PI * e,
    greatestPressureAt: Math.acos((1 - Math.sqrt(1 + 24 * e * e)) / (4 * e)),
  };
}

/**
 * Stiffness of the film of a short bearing, x along the load, y across it.
 *
 *     k = (W/c) a,  h = (π²(1−ε²) + 16 ε²)^(−3/2)
 *     a_xx = 4 h (π²(2−ε²) + 16 ε²)
 *     a_xy = h π (π²(1−ε²)² − 16 ε⁴)/(ε √(1−ε²))
 *     a_yx = −h π (π²(1−ε²)(1+2ε²) + 32 ε²(1+ε²))/(ε √(1−ε²))
 *     a_yy = 4 h (π²(1+2ε²) + 32 ε²(1+ε²)/(1−ε²))
 *
 * @returns  [N/m]
 * @source   naca-1157 for the film; Friswell and others, example 5.5.1
 */
export function shortBearingStiffness(load: Newton, clearance: Metre, e: number) {
  const e2 = e * e;
  const q = 1 - e2;
  const pi2 = Math.PI * Math.PI;
  const h = (pi2 * q + 16 * e2) ** -1.5;
  const k = load / clearance;
  const across = (h * Math.PI) / (e * Math.sqrt(q));
  return {
    xx: k * 4 * h * (pi2 * (2 - e2) + 16 * e2),
    xy: k * across * (pi2 * q * q - 16 * e2 * e2),
    yx: -k * across * (pi2 * q * (1 + 2 * e2) + 32 * e2 * (1 + e2)),
    yy: k * 4 * h * (pi2 * (1 + 2 * e2) + (32 * e2 * (1 + e2)) / q),
  };
}

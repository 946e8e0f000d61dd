import { shortBearingEccentricity } from '../oil/short-bearing.ts';
import { metre, metrePerSecond, newton, pascalSecond } from '../units/si.ts';

/** Steps of the table; the cubic between them is good to 1e-7, and one Newton step squares that away. */
const STEPS = 256;
const PI2 = Math.PI * Math.PI;
/** A journal pressed harder than this touches. */
const TOUCHING = 1e12;

const UNIT = { length: metre(1), viscosity: pascalSecond(1), speed: metrePerSecond(1) } as const;

const eccentricityOf = (wanted: number): number =>
  shortBearingEccentricity(newton(wanted / 4), UNIT.length, UNIT.viscosity, UNIT.speed, UNIT.length);

/**
 * The eccentricity ratio of a short bearing as a function of 4 W c²/(μ U L³) alone, from a table and one Newton step.
 *
 * The table runs over u = √w/(1 + √w), in which ε is smooth from end to end: ε ≈ u²/π near 0, 1 − ε ≈ 1 − u near 1.
 *
 * @source naca-1157
 */
export function tabledEccentricity(): (wanted: number) => number {
  const values = new Float64Array(STEPS + 2);
  for (let k = 0; k <= STEPS; k++) {
    const u = k / STEPS;
    values[k] = k === STEPS ? 1 : eccentricityOf((u / (1 - u)) ** 2);
  }
  values[STEPS + 1] = 1;
  return (wanted) => {
    if (wanted === 0) return 0;
    if (!(wanted < TOUCHING)) return 1;
    const root = Math.sqrt(wanted);
    const u = (STEPS * root) / (1 + root);
    let e = 0;
    if (u < 2) e = Math.min(wanted / Math.PI, 0.05);
    else if (u > STEPS - 2) e = 1 - 1 / root;
    else {
      // Lagrange's cubic through the four nearest points.
      const k = Math.floor(u);
      const t = u - k;
      const a = values[k - 1]!;
      const b = values[k]!;
      const c = values[k + 1]!;
      const d = values[k + 2]!;
      e = b + t * (c - a / 3 - b / 2 - d / 6 + t * ((a + c) / 2 - b + t * ((b - c) / 2 + (d - a) / 6)));
    }
    for (let step = 0; step < 60; step++) {
      const q = 1 - e * e;
      const inner = 16 * e * e + PI2 * q;
      const miss = wanted * q * q - e * Math.sqrt(inner);
      // Relative Newton: (w/f − 1)/(f'/f), which a small ε and a small 1 − ε alike leave well scaled.
      const by = miss / (e * Math.sqrt(inner)) / (1 / e + (4 * e) / q + (e * (16 - PI2)) / inner);
      e += by;
      if (e >= 1) e = (1 + (e - by)) / 2;
      else if (Math.abs(by) <= 1e-6 * (1 - e) * Math.min(1, e * 1e3)) return e;
    }
    return eccentricityOf(wanted);
  };
}

import { incompleteBeta, logGamma } from './gamma.ts';
import { normalCdf, normalQuantile } from './normal.ts';

/** From here on the expansion in 1/ν is more accurate than differences of large log-gammas. */
const MANY = 2000;
/** From here on t is near enough to a normal deviate for the simple transformation to hold to 1e-9. */
const NEARLY_NORMAL = 100_000;
const LAST_BITS = 1e-12;

/**
 * t with P(T ≤ t) = p for Student's T with ν degrees of freedom, not necessarily whole, possibly infinite.
 * Accurate to about 1e-11 relative.
 *
 * @source as-26 26.7.1 for the distribution, 26.7.5 for the expansion
 */
export function studentQuantile(p: number, dof: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a quantile needs a probability between 0 and 1, got ${p}`);
  if (!(dof > 0)) throw new RangeError(`degrees of freedom must be above 0, got ${dof}`);
  if (p === 0.5) return 0;
  if (p < 0.5) return -above(p, dof);
  return above(1 - p, dof);
}

/** The t that is exceeded with probability q below one half. */
function above(q: number, dof: number): number {
  if (dof >= MANY) return expanded(-normalQuantile(q), dof);
  const exceeded = (t: number): number => 0.5 * incompleteBeta(dof / (dof + t * t), dof / 2, 0.5);
  const scale = logGamma((dof + 1) / 2) - logGamma(dof / 2) - 0.5 * Math.log(dof * Math.PI);
  let low = 0;
  let high = 1;
  while (exceeded(high) > q && high < 1e150) {
    low = high;
    high *= 2;
  }
  let t = (low + high) / 2;
  for (let i = 0; i < 200; i++) {
    const now = exceeded(t);
    if (now > q) low = t;
    else high = t;
    // Newton on the logarithm of the tail, which is nearly straight in ln t far out.
    const density = Math.exp(scale - ((dof + 1) / 2) * Math.log1p((t * t) / dof));
    const next = t + (Math.log(now / q) * now) / density;
    const taken = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(taken - t) <= 1e-15 * t) return taken;
    t = taken;
  }
  return t;
}

/**
 * P(T ≤ t) for Student's T with ν degrees of freedom, not necessarily whole, possibly infinite; `studentQuantile` the
 * other way round. Accurate to about 1e-9.
 *
 * @source as-26 26.7.1 and 26.5.27: half of I_{ν/(ν+t²)}(ν/2, ½) lies beyond |t|
 */
export function studentCdf(t: number, dof: number): number {
  if (!(dof > 0)) throw new RangeError(`degrees of freedom must be above 0, got ${dof}`);
  if (dof >= NEARLY_NORMAL) return normalCdf(asNormal(t, dof));
  const beyond = 0.5 * incompleteBeta(dof / (dof + t * t), dof / 2, 0.5);
  return t > 0 ? 1 - beyond : beyond;
}

/** The normal deviate that is exceeded as seldom as t is, for many degrees of freedom. @source as-26 26.7.8 */
const asNormal = (t: number, n: number): number =>
  n === Infinity ? t : (t * (1 - 1 / (4 * n))) / Math.sqrt(1 + (t * t) / (2 * n));

function expanded(z: number, n: number): number {
  const z2 = z * z;
  const g1 = (z * (z2 + 1)) / 4;
  const g2 = (z * (3 + z2 * (16 + z2 * 5))) / 96;
  const g3 = (z * (-15 + z2 * (17 + z2 * (19 + z2 * 3)))) / 384;
  const g4 = (z * (-945 + z2 * (-1920 + z2 * (1482 + z2 * (776 + z2 * 79))))) / 92160;
  return z + g1 / n + g2 / n ** 2 + g3 / n ** 3 + g4 / n ** 4;
}

/**
 * The whole part of effective degrees of freedom, by which t is taken. Below one degree there is no whole part left,
 * and the fraction itself counts. Sixteen degrees that arithmetic left at 15.999999999999998 are sixteen.
 *
 * @source jcgm-100 G.4.1, note 1
 */
export const wholeDof = (dof: number): number => (dof < 1 ? dof : Math.floor(dof * (1 + LAST_BITS)));

/**
 * k for a two-sided coverage level: t_p of the whole part of the degrees of freedom.
 *
 * @source jcgm-100 G.4.1, G.6.4
 */
export const coverageFactor = (level: number, dof: number): number =>
  studentQuantile((1 + level) / 2, wholeDof(dof));

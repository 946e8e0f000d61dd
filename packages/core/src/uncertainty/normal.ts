const SQRT_2PI = Math.sqrt(2 * Math.PI);
/** Below this the series is the shorter way, above it the continued fraction. */
const SERIES_TO = 2.5;

export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / SQRT_2PI;

/**
 * Φ(z), the probability that a standard normal deviate is at most z; relative accuracy about 1e-14 in both tails.
 *
 *     Φ(z) = 1/2 + φ(z) Σ z^(2n+1) / (1·3·5…(2n+1))            near the middle
 *     Φ(−z) = φ(z) / (z + 1/(z + 2/(z + 3/(z + …))))           in the tail
 *
 * @source as-26 26.2.11 and 26.2.14
 */
export function normalCdf(z: number): number {
  if (z > SERIES_TO) return 1 - tail(z);
  if (z < -SERIES_TO) return tail(-z);
  let term = z;
  let sum = z;
  for (let n = 1; Math.abs(term) > 1e-18 * Math.abs(sum); n++) {
    term *= (z * z) / (2 * n + 1);
    sum += term;
  }
  return 0.5 + normalDensity(z) * sum;
}

function tail(z: number): number {
  if (z > 40) return 0;
  // Backward recurrence: 150 levels are enough from 2.5 on for the last bit.
  let fraction = z;
  for (let n = 150; n >= 1; n--) fraction = z + n / fraction;
  return normalDensity(z) / fraction;
}

/** Probability between two standard deviates, without cancellation in the upper tail. */
export function normalBetween(from: number, to: number): number {
  if (!(to > from)) return 0;
  return from > 0 ? normalCdf(-from) - normalCdf(-to) : normalCdf(to) - normalCdf(from);
}

/**
 * z with Φ(z) = p: a rational start, then Halley steps on the accurate Φ.
 *
 * @source as-26 26.2.23 for the start
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a quantile needs a probability between 0 and 1, got ${p}`);
  if (p > 0.5) return -normalQuantile(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  let z =
    -t + (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  for (let i = 0; i < 3; i++) {
    const step = (normalCdf(z) - p) / normalDensity(z);
    z -= step / (1 + (z * step) / 2);
  }
  return z;
}

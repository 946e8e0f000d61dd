/**
 * Slope at one point of a piecewise cubic that never overshoots its points (Fritsch and Carlson, harmonic form).
 *
 * @param x  rising
 * @param y  the figure of a point
 * @source fritsch-carlson
 */
function slopeAt(x: ArrayLike<number>, y: (k: number) => number, k: number): number {
  const n = x.length;
  if (n < 2) return 0;
  const step = (i: number): number => x[i + 1]! - x[i]!;
  const rise = (i: number): number => (y(i + 1) - y(i)) / step(i);
  if (n === 2) return rise(0);
  if (k === 0) return endSlope(step(0), step(1), rise(0), rise(1));
  if (k === n - 1) return endSlope(step(n - 2), step(n - 3), rise(n - 2), rise(n - 3));
  const [left, right] = [rise(k - 1), rise(k)];
  if (left * right <= 0) return 0;
  const a = 2 * step(k) + step(k - 1);
  const b = step(k) + 2 * step(k - 1);
  return (a + b) / (a / left + b / right);
}

/** Slopes at all points, one into each place of `into`. */
export function monotoneSlopes(x: ArrayLike<number>, y: ArrayLike<number>, into: Float64Array): void {
  const figure = (k: number): number => y[k]!;
  for (let k = 0; k < x.length; k++) into[k] = slopeAt(x, figure, k);
}

/** The value of such a cubic at one place, held between its ends. */
export function monotoneValue(x: ArrayLike<number>, y: (k: number) => number, at: number): number {
  const n = x.length;
  if (!(at > x[0]!)) return y(0);
  if (at >= x[n - 1]!) return y(n - 1);
  let k = 0;
  while (at > x[k + 1]!) k++;
  const h = x[k + 1]! - x[k]!;
  const t = (at - x[k]!) / h;
  const [a, b] = [y(k), y(k + 1)];
  const [p, q] = [slopeAt(x, y, k) * h, slopeAt(x, y, k + 1) * h];
  return a + t * (p + t * (3 * (b - a) - 2 * p - q + t * (2 * (a - b) + p + q)));
}

/** Slope of the parabola through the three points at an end, held to what does not overshoot. */
function endSlope(near: number, far: number, rise: number, next: number): number {
  const slope = ((2 * near + far) * rise - near * next) / (near + far);
  if (slope * rise <= 0) return 0;
  return rise * next <= 0 && Math.abs(slope) > 3 * Math.abs(rise) ? 3 * rise : slope;
}

/** Value and slope of such a cubic; beyond its ends it goes straight on. */
export function onCurve(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  slopes: ArrayLike<number>,
  at: number,
  out: { flow: number; slope: number },
): void {
  const n = x.length;
  if (!(at > x[0]!)) {
    out.slope = slopes[0]!;
    out.flow = y[0]! + slopes[0]! * (at - x[0]!);
    return;
  }
  if (at >= x[n - 1]!) {
    out.slope = slopes[n - 1]!;
    out.flow = y[n - 1]! + slopes[n - 1]! * (at - x[n - 1]!);
    return;
  }
  let k = 0;
  while (at > x[k + 1]!) k++;
  const h = x[k + 1]! - x[k]!;
  const t = (at - x[k]!) / h;
  const [a, b] = [y[k]!, y[k + 1]!];
  const [p, q] = [slopes[k]! * h, slopes[k + 1]! * h];
  const c = 3 * (b - a) - 2 * p - q;
  const d = 2 * (a - b) + p + q;
  out.flow = a + t * (p + t * (c + t * d));
  out.slope = (p + t * (2 * c + 3 * d * t)) / h;
}

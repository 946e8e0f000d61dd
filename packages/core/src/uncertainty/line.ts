/** A straight line through calibration points, its two coefficients correlated. */
export interface Line {
  /** At the chosen origin. */
  readonly intercept: number;
  readonly slope: number;
  readonly uIntercept: number;
  readonly uSlope: number;
  readonly correlation: number;
  /** Of the residuals, n − 2 in the divisor. */
  readonly sd: number;
  readonly dof: number;
  readonly at: (x: number) => { readonly value: number; readonly u: number };
}

/**
 * Ordinary least squares about an origin x0; takes three points at two places or more.
 *
 *     y = a + b (x − x0),  u²(y) = u²(a) + (x − x0)² u²(b) + 2 (x − x0) r u(a) u(b)
 *
 * @source jcgm-100 H.3
 */
export function fittedLine(points: readonly (readonly [x: number, y: number])[], origin = 0): Line {
  const n = points.length;
  const meanX = points.reduce((s, [x]) => s + x, 0) / n;
  const meanY = points.reduce((s, [, y]) => s + y, 0) / n;
  const sxx = points.reduce((s, [x]) => s + (x - meanX) ** 2, 0);
  if (n < 3 || !(sxx > 0))
    throw new RangeError('a line and its spread take three points at two places or more');
  const slope = points.reduce((s, [x, y]) => s + (x - meanX) * (y - meanY), 0) / sxx;
  const away = meanX - origin;
  const intercept = meanY - slope * away;
  const dof = n - 2;
  const residual = points.reduce((s, [x, y]) => s + (y - meanY - slope * (x - meanX)) ** 2, 0);
  const sd = Math.sqrt(residual / dof);
  const uSlope = sd / Math.sqrt(sxx);
  const uIntercept = sd * Math.sqrt(1 / n + away ** 2 / sxx);
  const correlation = -away / sxx / Math.sqrt((1 / n + away ** 2 / sxx) / sxx);
  const at = (x: number): { value: number; u: number } => ({
    value: intercept + slope * (x - origin),
    u: sd * Math.sqrt(1 / n + (x - meanX) ** 2 / sxx),
  });
  return { intercept, slope, uIntercept, uSlope, correlation, sd, dof, at };
}

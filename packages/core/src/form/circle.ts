export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

export interface RoundForm extends Circle {
  /** Greatest less smallest radius about the centre. */
  readonly outOfRound: number;
  /** Sum of the squared distances from the circle. */
  readonly sumOfSquares: number;
}

type Point = readonly [number, number];

const MOST_STEPS = 200;

/**
 * The circle from which points stray least, by the squares of their distances.
 *
 *     minimise Σ (√((x − a)² + (y − b)²) − R)²
 *
 * Damped Gauss-Newton from the algebraic circle of Kåsa. A short arc fits many circles nearly as well: the caller
 * should say so where the points span little of it.
 *
 * @param points  three or more, not all on one line
 * @returns       undefined where no circle can be told from a line
 * @source        gander-golub-strebel; iso-12181 for the out-of-round
 */
export function leastSquaresCircle(points: readonly Point[]): RoundForm | undefined {
  const start = points.length < 3 ? undefined : algebraicCircle(points);
  if (!start) return undefined;
  let { x, y } = start;
  let damping = 1e-6;
  let fit = fitAt(points, x, y);
  for (let step = 0; step < MOST_STEPS; step++) {
    const moved = stepFrom(points, x, y, damping);
    if (!moved) return undefined;
    const next = fitAt(points, x + moved[0], y + moved[1]);
    if (next.sum > fit.sum) {
      damping *= 8;
      if (damping > 1e12) break;
      continue;
    }
    x += moved[0];
    y += moved[1];
    fit = next;
    damping = Math.max(damping / 8, 1e-15);
    if (Math.hypot(...moved) <= 1e-14 * (fit.radius + Math.hypot(x, y))) break;
  }
  const distances = points.map(([px, py]) => Math.hypot(px - x, py - y));
  return {
    x,
    y,
    radius: fit.radius,
    outOfRound: Math.max(...distances) - Math.min(...distances),
    sumOfSquares: fit.sum,
  };
}

/** For a centre the best radius is the mean distance. */
function fitAt(points: readonly Point[], x: number, y: number): { radius: number; sum: number } {
  const distances = points.map(([px, py]) => Math.hypot(px - x, py - y));
  const radius = distances.reduce((sum, d) => sum + d, 0) / points.length;
  return { radius, sum: distances.reduce((sum, d) => sum + (d - radius) ** 2, 0) };
}

/** Step of the centre, the radius eliminated: (JᵀJ + λ I) d = −Jᵀ r with columns less their means. */
function stepFrom(
  points: readonly Point[],
  x: number,
  y: number,
  damping: number,
): [number, number] | undefined {
  const n = points.length;
  const rows = points.map(([px, py]) => {
    const d = Math.hypot(px - x, py - y);
    return d === 0 ? ([0, 0, 0] as const) : ([(x - px) / d, (y - py) / d, d] as const);
  });
  const mean = [0, 1, 2].map((k) => rows.reduce((sum, row) => sum + row[k]!, 0) / n);
  let [xx, xy, yy, rx, ry] = [0, 0, 0, 0, 0];
  for (const [ux, uy, d] of rows) {
    const [a, b, r] = [ux - mean[0]!, uy - mean[1]!, d - mean[2]!];
    xx += a * a;
    xy += a * b;
    yy += b * b;
    rx += a * r;
    ry += b * r;
  }
  const lambda = damping * (xx + yy);
  const determinant = (xx + lambda) * (yy + lambda) - xy * xy;
  if (!(determinant > 0)) return undefined;
  return [-((yy + lambda) * rx - xy * ry) / determinant, -((xx + lambda) * ry - xy * rx) / determinant];
}

/** x² + y² = 2 a x + 2 b y + c, least squares about the mean of the points. */
function algebraicCircle(points: readonly Point[]): { x: number; y: number } | undefined {
  const n = points.length;
  const mx = points.reduce((sum, [x]) => sum + x, 0) / n;
  const my = points.reduce((sum, [, y]) => sum + y, 0) / n;
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const [px, py] of points) {
    const [x, y] = [px - mx, py - my];
    const z = x * x + y * y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-14 * (xx + yy) ** 2)) return undefined;
  return {
    x: mx + (xz * yy - yz * xy) / (2 * determinant),
    y: my + (yz * xx - xz * xy) / (2 * determinant),
  };
}

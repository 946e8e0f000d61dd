import { solve } from 'yalps';

/** Where it was probed, and how high it stood there. */
export type Height = readonly [x: number, y: number, z: number];

export interface Plane {
  /** z = a x + b y + c */
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Distance between the two planes parallel to it that just hold every point. */
  readonly flatness: number;
}

/** The band about a plane of this tilt, square to it. */
function banded(points: readonly Height[], a: number, b: number): Plane {
  const rest = points.map(([x, y, z]) => z - a * x - b * y);
  const [least, greatest] = [Math.min(...rest), Math.max(...rest)];
  return { a, b, c: (least + greatest) / 2, flatness: (greatest - least) / Math.hypot(1, a, b) };
}

/**
 * Centred, and each direction scaled to one, so that a face in metres and its unevenness in micrometres can be told
 * apart by sums of one tolerance.
 */
function scaled(points: readonly Height[]) {
  const mean = (k: 0 | 1 | 2): number => points.reduce((sum, point) => sum + point[k], 0) / points.length;
  const [mx, my] = [mean(0), mean(1)];
  const size = Math.max(...points.map(([x, y]) => Math.hypot(x - mx, y - my)));
  return { mx, my, size, flat: points.map(([x, y, z]): Height => [(x - mx) / size, (y - my) / size, z]) };
}

/**
 * The plane from which points stray least, by the squares of their heights.
 *
 * @returns  undefined for fewer than three points, or where all lie on one line
 */
export function leastSquaresPlane(points: readonly Height[]): Plane | undefined {
  if (points.length < 3) return undefined;
  const { size, flat } = scaled(points);
  if (!(size > 0)) return undefined;
  const sum = (of: (point: Height) => number): number => flat.reduce((total, point) => total + of(point), 0);
  const [xx, xy, yy] = [sum(([x]) => x * x), sum(([x, y]) => x * y), sum(([, y]) => y * y)];
  const [xz, yz] = [sum(([x, , z]) => x * z), sum(([, y, z]) => y * z)];
  const det = xx * yy - xy * xy;
  // On one line the plane may turn about it.
  if (!(det > 1e-12 * xx * Math.max(xx, yy) && det > 1e-12 * yy * Math.max(xx, yy))) return undefined;
  const [a, b] = [(xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det];
  const plane = banded(points, a / size, b / size);
  const c = points.reduce((total, [x, y, z]) => total + z - plane.a * x - plane.b * y, 0) / points.length;
  return { ...plane, c };
}

/**
 * The least distance between two parallel planes that hold every point.
 *
 *     minimise t  subject to  |z − a x − b y − c| ≤ t;  flatness = 2 t
 *
 * A linear programme: exact for heights along z, and the band is then taken square to the plane found. For a face
 * set up nearly level, where the square of its tilt is next to nothing, that is the minimum zone; a steep one must be
 * set up level first.
 *
 * @returns  undefined where no plane can be told from a line
 */
export function minimumZonePlane(points: readonly Height[]): Plane | undefined {
  const start = leastSquaresPlane(points);
  if (!start) return undefined;
  const spread = start.flatness;
  const { size, flat } = scaled(points);
  const greatest = Math.max(...points.map(([, , z]) => Math.abs(z)), size * Math.hypot(start.a, start.b));
  // Nothing is left of the heights but what the arithmetic rounds.
  if (spread <= greatest * 1e-14) return start;
  // From the least-squares plane, in units of its band: every coefficient is then of the order of one.
  const rest = points.map(([x, y, z]) => (z - start.a * x - start.b * y - start.c) / spread);
  const constraints = new Map<string, { readonly min: number }>();
  const column = (name: string): [string, Map<string, number>] => [name, new Map()];
  const columns = new Map(['a', 'A', 'b', 'B', 'c', 'C', 't'].map(column));
  columns.get('t')!.set('t', 1);
  flat.forEach(([x, y], i) => {
    for (const [side, sign] of [
      ['over', 1],
      ['under', -1],
    ] as const) {
      const row = `${side}${i}`;
      constraints.set(row, { min: sign * rest[i]! });
      columns.get('t')!.set(row, 1);
      // Each coefficient is a difference of two that are not negative.
      for (const [plus, minus, factor] of [
        ['a', 'A', x],
        ['b', 'B', y],
        ['c', 'C', 1],
      ] as const) {
        columns.get(plus)!.set(row, sign * factor);
        columns.get(minus)!.set(row, -sign * factor);
      }
    }
  });
  const { status, variables } = solve(
    { direction: 'minimize', objective: 't', constraints, variables: columns },
    { precision: 1e-10, includeZeroVariables: true },
  );
  if (status !== 'optimal') return undefined;
  const found = new Map(variables);
  const of = (plus: string, minus: string): number => (found.get(plus) ?? 0) - (found.get(minus) ?? 0);
  const [a, b] = [of('a', 'A'), of('b', 'B')];
  return banded(points, start.a + (a * spread) / size, start.b + (b * spread) / size);
}

/**
 * How the minimum zone moves with each height: the greatest and the least plane rest on a few points, and on these the
 * band hangs. The dual of the programme above:
 *
 *     maximise Σ (pᵢ − qᵢ) zᵢ  subject to  Σ pᵢ = Σ qᵢ = 1,  Σ (pᵢ − qᵢ) xᵢ = Σ (pᵢ − qᵢ) yᵢ = 0,  p, q ≥ 0
 *
 * The weights pᵢ − qᵢ sum to nothing, so what all heights have in common, and any tilt, drops out of the band.
 *
 * @returns  one weight a point, not nothing at four points at most; undefined where there is no plane
 */
export function zoneWeights(points: readonly Height[]): number[] | undefined {
  const start = leastSquaresPlane(points);
  if (!start) return undefined;
  const { flat } = scaled(points);
  const greatest = Math.max(...points.map(([, , z]) => Math.abs(z)));
  if (start.flatness <= greatest * 1e-14) return points.map(() => 0);
  const rest = points.map(([x, y, z]) => (z - start.a * x - start.b * y - start.c) / start.flatness);
  const columns = new Map<string, Map<string, number>>();
  flat.forEach(([x, y], i) => {
    for (const [side, sign] of [
      ['p', 1],
      ['q', -1],
    ] as const)
      columns.set(
        `${side}${i}`,
        new Map([
          ['band', sign * rest[i]!],
          [side, 1],
          ['x', sign * x],
          ['y', sign * y],
        ]),
      );
  });
  const constraints = new Map([
    ['p', { equal: 1 }],
    ['q', { equal: 1 }],
    ['x', { equal: 0 }],
    ['y', { equal: 0 }],
  ]);
  const { status, variables } = solve(
    { direction: 'maximize', objective: 'band', constraints, variables: columns },
    { precision: 1e-10 },
  );
  if (status !== 'optimal') return undefined;
  const found = new Map(variables);
  return points.map((_, i) => (found.get(`p${i}`) ?? 0) - (found.get(`q${i}`) ?? 0));
}

/** A diameter taken at an angle round the part [rad], [m]. */
export type DiameterAt = readonly [angle: number, diameter: number];

export interface Oval {
  /** Mean of the longest and the shortest diameter [m]. */
  readonly mean: number;
  /** Longest less shortest [m]. */
  readonly ovality: number;
  /** Direction of the longest, 0 to π, which are one [rad]. */
  readonly longest: number;
  /** What of a diameter the oval does not explain, at most [m]: four lobes and more, or the readings' own errors. */
  readonly rest: number;
}

/**
 * The oval that diameters in several directions are nearest to, by least squares.
 *
 *     D(θ) = D₀ + a cos 2θ + b sin 2θ;  ovality = 2 √(a² + b²);  longest at ½ atan2(b, a)
 *
 * Diameters repeat after half a turn, so odd lobes are in none of them, in however many directions they are taken.
 *
 * @param diameters  four directions or more: three fix an oval whatever they read
 * @returns          undefined for fewer, or where the directions do not tell an oval apart
 * @source iso-12181 for the harmonic; the fit is least squares
 */
export function fittedOval(diameters: readonly DiameterAt[]): Oval | undefined {
  if (diameters.length < 4) return undefined;
  const middle = diameters.reduce((sum, [, d]) => sum + d, 0) / diameters.length;
  const rows = diameters.map(([angle]) => [1, Math.cos(2 * angle), Math.sin(2 * angle)] as const);
  const sum = (of: (row: readonly [number, number, number], d: number) => number): number =>
    rows.reduce((total, row, i) => total + of(row, diameters[i]![1] - middle), 0);
  const m = [0, 1, 2].map((r) => [0, 1, 2].map((c) => sum((row) => row[r]! * row[c]!)));
  const right = [0, 1, 2].map((r) => sum((row, d) => row[r]! * d));
  const det = determinant(m);
  if (!(det > 1e-9 * diameters.length ** 3)) return undefined;
  const [offset, a, b] = [0, 1, 2].map(
    (k) => determinant(m.map((row, r) => row.map((x, c) => (c === k ? right[r]! : x)))) / det,
  ) as [number, number, number];
  const rest = Math.max(
    ...rows.map(([, c, s], i) => Math.abs(diameters[i]![1] - middle - offset - a * c - b * s)),
  );
  const turn = Math.atan2(b, a) / 2;
  return {
    mean: middle + offset,
    ovality: 2 * Math.hypot(a, b),
    longest: turn < 0 ? turn + Math.PI : turn,
    rest,
  };
}

const determinant = (m: readonly (readonly number[])[]): number => {
  const [[a, b, c], [d, e, f], [g, h, i]] = m as [number[], number[], number[]];
  return a! * (e! * i! - f! * h!) - b! * (d! * i! - f! * g!) + c! * (d! * h! - e! * g!);
};

/** Values at the crossings of a grid's lines. */
export interface Grid {
  /** Rising. */
  readonly xs: readonly number[];
  /** Rising. */
  readonly ys: readonly number[];
  /** Row by row: all x at the first y, then at the next. */
  readonly values: ArrayLike<number>;
}

/** A stretch of a contour, from one edge of a cell to another, in the grid's own units. */
export interface Stretch {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/**
 * Where the grid takes a value, cell by cell, straight lines between the crossings on its edges (marching squares).
 * A saddle is split by the mean of its corners. Cells with a corner that is not finite have no contour.
 */
export function contourOf({ xs, ys, values }: Grid, level: number): Stretch[] {
  const stretches: Stretch[] = [];
  const n = xs.length;
  for (let j = 0; j + 1 < ys.length; j++)
    for (let i = 0; i + 1 < n; i++) {
      // Corners against the clock from the lower left.
      const corners: readonly (readonly [number, number, number])[] = [
        [xs[i]!, ys[j]!, values[j * n + i]!],
        [xs[i + 1]!, ys[j]!, values[j * n + i + 1]!],
        [xs[i + 1]!, ys[j + 1]!, values[(j + 1) * n + i + 1]!],
        [xs[i]!, ys[j + 1]!, values[(j + 1) * n + i]!],
      ];
      if (!corners.every(([, , value]) => Number.isFinite(value))) continue;
      const crossings: (readonly [number, number])[] = [];
      for (let k = 0; k < 4; k++) {
        const [x0, y0, v0] = corners[k]!;
        const [x1, y1, v1] = corners[(k + 1) % 4]!;
        if (v0 >= level === v1 >= level) continue;
        const part = (level - v0) / (v1 - v0);
        crossings.push([x0 + part * (x1 - x0), y0 + part * (y1 - y0)]);
      }
      if (crossings.length === 2) stretches.push({ from: crossings[0]!, to: crossings[1]! });
      if (crossings.length === 4) {
        const high = corners.reduce((sum, [, , value]) => sum + value, 0) / 4 >= level;
        const first = corners[0]![2] >= level;
        const pairs = high === first ? [0, 1, 2, 3] : [3, 0, 1, 2];
        stretches.push(
          { from: crossings[pairs[0]!]!, to: crossings[pairs[1]!]! },
          { from: crossings[pairs[2]!]!, to: crossings[pairs[3]!]! },
        );
      }
    }
  return stretches;
}

/** A stretch of a row between two levels: its ends, and which band it lies in (0 below the first level). */
export interface Run {
  readonly from: number;
  readonly to: number;
  readonly band: number;
}

/** A row of values cut where it crosses a level, straight between its points. */
export function runsOf(xs: readonly number[], row: readonly number[], levels: readonly number[]): Run[] {
  const bandOf = (value: number): number => levels.filter((level) => value >= level).length;
  const runs: Run[] = [];
  const add = (from: number, to: number, band: number): void => {
    const last = runs.at(-1);
    if (last && last.band === band) runs[runs.length - 1] = { ...last, to };
    else if (to > from) runs.push({ from, to, band });
  };
  for (let i = 0; i + 1 < xs.length; i++) {
    const [a, b] = [row[i]!, row[i + 1]!];
    if (!Number.isFinite(a) || !Number.isFinite(b)) continue;
    const cuts = levels
      .filter((level) => level > Math.min(a, b) && level < Math.max(a, b))
      .map((level) => (level - a) / (b - a))
      .sort((p, q) => p - q);
    const ends = [0, ...cuts, 1];
    for (let k = 0; k + 1 < ends.length; k++) {
      const middle = (ends[k]! + ends[k + 1]!) / 2;
      const at = (part: number): number => xs[i]! + part * (xs[i + 1]! - xs[i]!);
      add(at(ends[k]!), at(ends[k + 1]!), bandOf(a + middle * (b - a)));
    }
  }
  return runs;
}

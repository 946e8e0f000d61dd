/** One curve over speed: a value at each of the shared speeds, with the half-width of its band. */
export interface Curve {
  /** One character that draws it. */
  readonly mark: string;
  readonly points: readonly { readonly value: number; readonly band: number }[];
}

/**
 * Pressure over speed as a block of text. A dotted column is the band at about 95 %.
 *
 * @param speeds  one per point, as they are printed under the axis, rising
 * @param limits  pressures drawn at the speed they belong to, as `┬` (at most) and `┴` (at least)
 */
export function pressureCurveText(
  speeds: readonly string[],
  curves: readonly Curve[],
  limits: readonly { readonly speed: number; readonly lower?: number; readonly upper?: number }[],
  rows = 12,
): string[] {
  const step = 12;
  const all = curves.flatMap(({ points }) => points.map(({ value, band }) => value + band));
  const most = Math.max(1, ...all, ...limits.flatMap(({ lower, upper }) => [lower ?? 0, upper ?? 0])) * 1.05;
  const grid = Array.from({ length: rows + 1 }, () => new Array<string>(step * speeds.length).fill(' '));
  const row = (value: number): number =>
    rows - Math.round((Math.min(Math.max(value, 0), most) / most) * rows);
  const put = (value: number, column: number, mark: string): void => {
    const line = grid[row(value)]!;
    if (line[column] === ' ' || line[column] === '·') line[column] = mark;
  };
  speeds.forEach((_, i) => {
    curves.forEach(({ mark, points }, k) => {
      const column = i * step + 4 + 2 * k;
      const { value, band } = points[i]!;
      put(value, column, mark);
      for (let r = row(value + band); r <= row(value - band); r++)
        if (grid[r]![column] === ' ') grid[r]![column] = '·';
    });
  });
  for (const { speed, lower, upper } of limits) {
    const column = speed * step + 2;
    if (lower !== undefined) put(lower, column, '┴');
    if (upper !== undefined) put(upper, column, '┬');
  }
  const figure = (r: number): string =>
    r % 3 === 0 ? String(Math.round((most * (rows - r)) / rows)).padStart(5) : '     ';
  return [
    ...grid.map((line, r) => `${figure(r)} │${line.join('')}`.trimEnd()),
    `      └${'─'.repeat(step * speeds.length)}`,
    `       ${speeds.map((speed) => speed.padStart(8).padEnd(step)).join('')}`.trimEnd(),
  ];
}

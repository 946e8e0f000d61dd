import { describe, expect, it } from 'vitest';
import { contourOf, runsOf } from './contours.ts';

describe('contours', () => {
  // A plane: p = 2x + 3y.
  const xs = [0, 1, 2.5, 4];
  const ys = [0, 2, 3];
  const plane = { xs, ys, values: ys.flatMap((y) => xs.map((x) => 2 * x + 3 * y)) };

  it('of a plane are straight, exact and whole', () => {
    const stretches = contourOf(plane, 7);
    expect(stretches.length).toBeGreaterThan(2);
    for (const { from, to } of stretches)
      for (const [x, y] of [from, to]) expect(2 * x + 3 * y).toBeCloseTo(7, 12);
    // From (3.5, 0) to (0, 7/3): every stretch lies between, and together they are as long as the line.
    const length = stretches.reduce(
      (sum, { from, to }) => sum + Math.hypot(to[0] - from[0], to[1] - from[1]),
      0,
    );
    expect(length).toBeCloseTo(Math.hypot(3.5, 7 / 3), 9);
  });

  it('of a level that is not met are none, and a hole in the grid has none', () => {
    expect(contourOf(plane, 50)).toEqual([]);
    const values = [...plane.values];
    values[5] = Number.NaN;
    for (const { from } of contourOf({ ...plane, values }, 7)) expect(Number.isFinite(from[0])).toBe(true);
  });

  it('part a saddle without crossing', () => {
    const saddle = contourOf({ xs: [0, 1], ys: [0, 1], values: [1, 0, 0, 1] }, 0.4);
    expect(saddle).toHaveLength(2);
    // The high corners are joined through the middle: each stretch cuts off one low corner.
    for (const { from, to } of saddle) {
      const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
      expect(Math.abs(middle[0]! - 0.5)).toBeGreaterThan(0.1);
    }
  });

  it('cut a row where it crosses them', () => {
    expect(runsOf([0, 10], [0, 20], [5, 10])).toEqual([
      { from: 0, to: 2.5, band: 0 },
      { from: 2.5, to: 5, band: 1 },
      { from: 5, to: 10, band: 2 },
    ]);
    expect(runsOf([0, 1, 2], [3, 3, 3], [5])).toEqual([{ from: 0, to: 2, band: 0 }]);
  });
});

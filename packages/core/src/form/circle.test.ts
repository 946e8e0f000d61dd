import fc from 'fast-check';
import { expect, it } from 'vitest';
import { leastSquaresCircle } from './circle.ts';

const ring = (n: number, x: number, y: number, radius: (angle: number) => number) =>
  Array.from({ length: n }, (_, i): [number, number] => {
    const angle = (2 * Math.PI * i) / n;
    return [x + radius(angle) * Math.cos(angle), y + radius(angle) * Math.sin(angle)];
  });

it('finds the circle that points lie on, wherever it is', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 3, max: 40 }),
      fc.double({ min: -5, max: 5, noNaN: true }),
      fc.double({ min: -5, max: 5, noNaN: true }),
      fc.double({ min: 0.01, max: 50, noNaN: true }),
      (n, x, y, radius) => {
        const circle = leastSquaresCircle(ring(n, x, y, () => radius))!;
        expect(circle.radius / radius).toBeCloseTo(1, 9);
        expect(circle.outOfRound).toBeLessThan(1e-9 * (radius + 10));
      },
    ),
  );
});

it('does no better by moving the centre or the radius', () => {
  const points = ring(
    17,
    3,
    -2,
    (angle) => 40 + 0.01 * Math.cos(2 * angle) + 0.004 * Math.sin(5 * angle + 1),
  );
  const best = leastSquaresCircle(points)!;
  const sum = (x: number, y: number, r: number) =>
    points.reduce((s, [px, py]) => s + (Math.hypot(px - x, py - y) - r) ** 2, 0);
  const least = sum(best.x, best.y, best.radius);
  for (const d of [1e-5, -1e-5]) {
    expect(sum(best.x + d, best.y, best.radius)).toBeGreaterThan(least);
    expect(sum(best.x, best.y + d, best.radius)).toBeGreaterThan(least);
    expect(sum(best.x, best.y, best.radius + d)).toBeGreaterThan(least);
  }
});

it('tells no circle from points on a line, at one place, or too few', () => {
  expect(
    leastSquaresCircle([
      [0, 0],
      [1, 1],
      [2, 2],
      [5, 5],
    ]),
  ).toBeUndefined();
  expect(
    leastSquaresCircle([
      [1, 1],
      [1, 1],
      [1, 1],
    ]),
  ).toBeUndefined();
  expect(
    leastSquaresCircle([
      [0, 0],
      [1, 0],
    ]),
  ).toBeUndefined();
});

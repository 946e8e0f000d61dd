import highs from 'highs';
import { expect, it } from 'vitest';
import { type Height, leastSquaresPlane, minimumZonePlane, zoneWeights } from './flatness.ts';

/** Its types say that the module is no function; it is one. */
const loadHighs = highs as unknown as () => Promise<{
  solve(programme: string): { Status: string; ObjectiveValue: number };
}>;

/** Heights in thousandths, on a grid; the same each time. */
function face(columns: number, rows: number, seed: number): Height[] {
  let state = seed;
  const draw = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return Array.from({ length: columns * rows }, (_, i) => [i % columns, Math.floor(i / columns), draw() * 4]);
}

const signed = (value: number, name: string): string => `${value < 0 ? '-' : '+'} ${Math.abs(value)} ${name}`;

it('a square with one corner up by h is flat to h/2: both planes tilt to meet it', () => {
  // The twist z = h(1+x)(1+y)/4 on ±1: its plane part is h(1+x+y)/4, what is left is ±h/4 at the corners.
  const square: Height[] = [
    [-1, -1, 0],
    [1, -1, 0],
    [-1, 1, 0],
    [1, 1, 8],
  ];
  expect(minimumZonePlane(square)!.flatness / Math.hypot(1, 0, 0)).toBeCloseTo(4 / Math.hypot(1, 2, 2), 9);
});

it('one point up in the middle of a level grid is the whole of it', () => {
  const grid = face(3, 3, 1).map(([x, y], i): Height => [x, y, i === 4 ? 0.003 : 0]);
  expect(minimumZonePlane(grid)!.flatness).toBeCloseTo(0.003, 12);
});

it('a level face, three points, points on a line', () => {
  expect(
    minimumZonePlane([
      [0, 0, 1],
      [1, 0, 2],
      [0, 1, 3],
      [1, 1, 4],
    ])!.flatness,
  ).toBeCloseTo(0, 12);
  expect(
    minimumZonePlane([
      [0, 0, 1],
      [1, 0, 2],
      [0, 1, 7],
    ])!.flatness,
  ).toBeCloseTo(0, 12);
  expect(
    minimumZonePlane([
      [0, 0, 1],
      [1, 1, 2],
      [2, 2, 7],
      [3, 3, 1],
    ]),
  ).toBeUndefined();
  expect(
    minimumZonePlane([
      [0, 0, 1],
      [1, 1, 2],
    ]),
  ).toBeUndefined();
});

it('another solver finds the same zone, and least squares never a smaller one', async () => {
  const solver = await loadHighs();
  for (const seed of [3, 17, 20_251, 99, 1234]) {
    const points = face(6, 3, seed);
    const witness = solver.solve(
      [
        'Minimize',
        ' o: t',
        'Subject To',
        ...points.flatMap(([x, y, z], i) => [
          ` u${i}: t ${signed(x, 'a')} ${signed(y, 'b')} + c >= ${z}`,
          ` d${i}: t ${signed(-x, 'a')} ${signed(-y, 'b')} - c >= ${-z}`,
        ]),
        'Bounds',
        ' a free',
        ' b free',
        ' c free',
        'End',
      ].join('\n'),
    );
    expect(witness.Status).toBe('Optimal');
    const found = minimumZonePlane(points)!;
    // The witness measures along z.
    expect(found.flatness * Math.hypot(1, found.a, found.b)).toBeCloseTo(2 * witness.ObjectiveValue, 6);
    const squares = leastSquaresPlane(points)!;
    expect(squares.flatness * Math.hypot(1, squares.a, squares.b)).toBeGreaterThan(
      2 * witness.ObjectiveValue - 1e-6,
    );
  }
});

it('setting the face up with another tilt changes nothing', () => {
  const level = face(5, 4, 7).map(([x, y, z]): Height => [x * 0.1, y * 0.1, z * 1e-5]);
  const tilted = level.map(([x, y, z]): Height => [x, y, z + 3e-4 * x - 2e-4 * y + 0.02]);
  expect(minimumZonePlane(tilted)!.flatness).toBeCloseTo(minimumZonePlane(level)!.flatness, 10);
});

it('the weights give the band again, sum to nothing with x and y as well, and rest on four points at most', () => {
  for (const seed of [3, 17, 20_251, 99, 1234]) {
    const points = face(6, 3, seed);
    const weights = zoneWeights(points)!;
    const sum = (of: (point: Height) => number): number =>
      points.reduce((total, point, i) => total + weights[i]! * of(point), 0);
    const zone = minimumZonePlane(points)!;
    // Primal and dual of one programme meet: two ways to one figure.
    expect(sum(([, , z]) => z)).toBeCloseTo(zone.flatness * Math.hypot(1, zone.a, zone.b), 8);
    for (const none of [sum(() => 1), sum(([x]) => x), sum(([, y]) => y)]) expect(none).toBeCloseTo(0, 9);
    expect(weights.filter((w) => Math.abs(w) > 1e-9).length).toBeLessThanOrEqual(4);
    expect(weights.reduce((total, w) => total + Math.abs(w), 0)).toBeCloseTo(2, 9);
  }
});

it('what a height moves the band by is its weight', () => {
  const points = face(5, 4, 77);
  const weights = zoneWeights(points)!;
  const band = (moved: readonly Height[]): number => {
    const { flatness, a, b } = minimumZonePlane(moved)!;
    return flatness * Math.hypot(1, a, b);
  };
  const step = 1e-5;
  points.forEach((_, i) => {
    const moved = (by: number) => points.map(([x, y, z], k): Height => [x, y, k === i ? z + by : z]);
    expect((band(moved(step)) - band(moved(-step))) / (2 * step)).toBeCloseTo(weights[i]!, 4);
  });
});

it('of a level face nothing moves the band', () => {
  expect(zoneWeights(face(3, 3, 1).map(([x, y]): Height => [x, y, 0.5]))).toEqual(Array(9).fill(0));
});

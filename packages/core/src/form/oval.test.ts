import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type DiameterAt, fittedOval } from './oval.ts';

const DEGREE = Math.PI / 180;
const at = (angles: readonly number[], of: (rad: number) => number): DiameterAt[] =>
  angles.map((degrees) => [degrees * DEGREE, of(degrees * DEGREE)]);

it('four diameters at 45° give the oval by hand: half of their differences across', () => {
  // a = (80.010 − 79.998)/2 = .006, b = (80.004 − 80.004)/2 = 0.
  const found = fittedOval([
    [0, 80.01],
    [45 * DEGREE, 80.004],
    [90 * DEGREE, 79.998],
    [135 * DEGREE, 80.004],
  ])!;
  expect(found.mean).toBeCloseTo(80.004, 9);
  expect(found.ovality).toBeCloseTo(0.012, 9);
  // 0 and π are one direction.
  expect(Math.sin(found.longest)).toBeCloseTo(0, 9);
  expect(found.rest).toBeCloseTo(0, 9);
});

it('an oval anywhere is found again, at the angle it stands at', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-3, max: 1, noNaN: true }),
      fc.double({ min: 0.01, max: 3.13, noNaN: true }),
      (size, turn) => {
        const found = fittedOval(
          at([0, 30, 60, 90, 120, 150], (angle) => 60 + (size / 2) * Math.cos(2 * (angle - turn))),
        )!;
        expect(found.ovality).toBeCloseTo(size, 8);
        expect(Math.cos(2 * (found.longest - turn))).toBeCloseTo(1, 6);
        expect(found.rest).toBeLessThan(1e-9);
      },
    ),
  );
});

it('three lobes are in no diameter; four are no oval and are left over', () => {
  const angles = [0, 22.5, 45, 67.5, 90, 112.5, 135, 157.5];
  const lobed = (count: number) =>
    fittedOval(
      at(angles, (angle) => {
        const radius = (a: number): number => 30 + 0.01 * Math.cos(count * a);
        return radius(angle) + radius(angle + Math.PI);
      }),
    )!;
  expect(lobed(3)).toMatchObject({ mean: expect.closeTo(60, 9), rest: expect.closeTo(0, 9) });
  expect(lobed(3).ovality).toBeCloseTo(0, 9);
  expect(lobed(4).ovality).toBeCloseTo(0, 9);
  expect(lobed(4).rest).toBeCloseTo(0.02, 9);
});

it('three directions, or one taken four times, tell no oval', () => {
  expect(fittedOval(at([0, 60, 120], () => 60))).toBeUndefined();
  expect(fittedOval(at([0, 180, 0, 180], () => 60))).toBeUndefined();
});

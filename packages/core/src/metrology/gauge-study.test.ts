import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { repeated } from '../uncertainty/evaluation.ts';
import { type GaugeStudy, gaugeStudy } from './gauge-study.ts';

const study = (readings: number[][][]): GaugeStudy => {
  const found = gaugeStudy(readings);
  if (!found.ok) throw new Error(JSON.stringify(found.issues));
  return found.value;
};

const reading = fc.integer({ min: -1000, max: 1000 });
const balanced = fc
  .tuple(fc.integer({ min: 2, max: 4 }), fc.integer({ min: 2, max: 3 }), fc.integer({ min: 2, max: 3 }))
  .chain(([p, o, r]) =>
    fc.array(fc.array(fc.array(reading, { minLength: r, maxLength: r }), { minLength: o, maxLength: o }), {
      minLength: p,
      maxLength: p,
    }),
  );

it('the sums of squares and the degrees of freedom add to the total', () => {
  fc.assert(
    fc.property(balanced, (readings) => {
      const { lines, totalSquares, parts, occasions, repeats } = study(readings);
      const squares = lines.reduce((s, line) => s + line.squares, 0);
      expect(Math.abs(squares - totalSquares)).toBeLessThan(1e-9 * (1 + totalSquares));
      expect(lines.reduce((s, line) => s + line.dof, 0)).toBe(parts * occasions * repeats - 1);
    }),
  );
});

it('is blind to where zero lies and grows with the unit', () => {
  fc.assert(
    fc.property(balanced, reading, (readings, zero) => {
      const was = study(readings);
      const moved = study(readings.map((part) => part.map((cell) => cell.map((x) => 10 * x + zero))));
      expect(moved.repeatability).toBeCloseTo(10 * was.repeatability, 6);
      expect(moved.reproducibility).toBeCloseTo(10 * was.reproducibility, 4);
    }),
  );
});

it('one part on one occasion is repeated readings of it', () => {
  const xs = [2.1228, 2.1227, 2.1229, 2.1228, 2.1226];
  const { repeatability, dof, mean, lines } = study([[xs]]);
  expect(repeatability).toBeCloseTo(repeated(xs).sd, 15);
  expect(mean).toBeCloseTo(repeated(xs).mean, 15);
  expect(dof).toBe(4);
  expect(lines.map(({ source }) => source)).toEqual(['repeats']);
});

it('two parts, each twice, by hand: squares 1 and 1 within, 16 between', () => {
  // Means 1.5 and 5.5 about 3.5: 2 (4 + 4) = 16 on 1; within 0.5 + 0.5 = 1 on 2; (16 − 0.5)/2 = 7.75.
  const { variance, lines } = study([[[1, 2]], [[5, 6]]]);
  expect(lines.map(({ squares }) => squares)).toEqual([16, 1]);
  expect(variance).toEqual({ parts: 7.75, occasions: 0, interaction: 0, repeats: 0.5 });
});

it('a component that comes out negative is set to zero and said to be', () => {
  // Occasions alike to the last digit while repeats differ: (0 − s²)/(p r) is below nothing.
  const { variance, setToZero, reproducibility } = study([
    [
      [1, 3],
      [1, 3],
    ],
    [
      [7, 9],
      [7, 9],
    ],
  ]);
  expect(setToZero).toEqual(['occasions']);
  expect(variance.occasions).toBe(0);
  expect(reproducibility).toBe(0);
});

it('readings all alike have no spread, and no ratio of nothing to nothing', () => {
  const { repeatability, lines } = study([
    [
      [2, 2],
      [2, 2],
    ],
    [
      [2, 2],
      [2, 2],
    ],
  ]);
  expect(repeatability).toBe(0);
  expect(lines.every(({ ratio }) => ratio === undefined || ratio === 0)).toBe(true);
});

it('read once on each occasion, the interaction serves as the error', () => {
  const { pooled, dof } = study([
    [[1], [2]],
    [[4], [6]],
    [[8], [9]],
  ]);
  expect(pooled).toBe(true);
  expect(dof).toBe(2);
});

it('asks for what is missing instead of guessing it', () => {
  const uneven = gaugeStudy([[[1, 2]], [[1]]]);
  expect(uneven.ok ? [] : uneven.issues.map(({ code }) => code)).toEqual(['study/uneven']);
  const few = gaugeStudy([[[1]]]);
  expect(few.ok ? [] : few.issues.map(({ code }) => code)).toEqual(['study/too-few']);
  const once = gaugeStudy([[[1]], [[2]]]);
  expect(once.ok ? [] : once.issues.map(({ code }) => code)).toEqual(['study/no-repeats']);
});

it('one reading on any occasion has the degrees of freedom of the mean squares it is made of', () => {
  // No effect of occasions: those of the repeats alone, here pooled with the interaction.
  const same = study([
    [
      [1, 3],
      [1, 3],
    ],
    [
      [7, 9],
      [7, 9],
    ],
  ]);
  expect(same.gauge).toBe(same.repeatability);
  expect(same.gaugeDof).toBeCloseTo(same.dof, 12);
  // One part on two occasions by hand: MS_o = 16 on 1, MS_e = 0.5 on 2, p r = 2.
  // σ² = MS_o/2 + MS_e/2 = 8.25; ν = 8.25² / (8²/1 + 0.25²/2) = 1.0630.
  const moved = study([
    [
      [1, 2],
      [5, 6],
    ],
  ]);
  expect(moved.gauge ** 2).toBeCloseTo(8.25, 12);
  expect(moved.gaugeDof).toBeCloseTo(8.25 ** 2 / (64 + 0.25 ** 2 / 2), 12);
});

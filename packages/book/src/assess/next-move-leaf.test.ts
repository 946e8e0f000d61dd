import { normalBetween } from '@fettle/core';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { leafOfFewestTries } from './next-move-leaf.ts';

const leaves = [1, 2, 3, 4, 5, 6, 7];

it('takes the leaf as thick as the limit, after which one try is enough', () => {
  expect(leafOfFewestTries({ goes: 0.5, stops: 8 }, leaves, { upper: 5 })).toEqual({
    leaf: 5,
    expected: 1,
    decides: 1,
  });
});

it('halves a bracket without limits, in as many tries as the classic search', () => {
  // Seven leaves part an even belief in eight: three tries always.
  expect(leafOfFewestTries({ goes: 0, stops: 8 }, leaves, {})).toMatchObject({ leaf: 4, expected: 3 });
});

it('goes where the gap is believed to be, and not to the middle', () => {
  // Half of the belief below 1, a quarter from 1 to 2, an eighth from 2 to 3, and the last: 1/2·1 + 1/4·2 + 1/4·3.
  const weights = [1 / 2, 1 / 4, 1 / 8, 1 / 8];
  const mass = (from: number, to: number) => weights.slice(from, to).reduce((sum, w) => sum + w, 0);
  const { leaf, expected } = leafOfFewestTries({ goes: 0, stops: 4 }, [1, 2, 3], {}, mass)!;
  expect(leaf).toBe(1);
  expect(expected).toBeCloseTo(1.75, 12);
});

it('takes the leaf in the middle of equals', () => {
  // Five leaves part an even belief in six: from 3 it is 1 + 5/3, from 2 or 4 it is 1 + 1/3 · 1 + 2/3 · 2, the same.
  const found = leafOfFewestTries({ goes: 0, stops: 6 }, [1, 2, 3, 4, 5], {})!;
  expect(found.leaf).toBe(3);
  expect(found.expected).toBeCloseTo(8 / 3, 12);
});

it('needs no more tries on average than any other order of leaves', () => {
  /** Tries on average when the leaf is picked by a rule, by trying every stretch of the belief. */
  const average = (
    sizes: readonly number[],
    mass: (a: number, b: number) => number,
    from: number,
    to: number,
    pick: (open: readonly number[]) => number,
  ): number => {
    const open = sizes.filter((s) => s > from && s < to);
    if (open.length === 0) return 0;
    const t = pick(open);
    const share = mass(from, t) / mass(from, to);
    return 1 + share * average(sizes, mass, from, t, pick) + (1 - share) * average(sizes, mass, t, to, pick);
  };
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 8, noNaN: true }),
      fc.double({ min: 0.5, max: 4, noNaN: true }),
      (m, u) => {
        const mass = (a: number, b: number) => normalBetween((a - m) / u, (b - m) / u);
        const { expected } = leafOfFewestTries({ goes: 0, stops: 8 }, leaves, {}, mass)!;
        for (const pick of [
          (open: readonly number[]) => open[open.length >> 1]!,
          (open: readonly number[]) => open[0]!,
          (open: readonly number[]) => open.at(-1)!,
        ])
          expect(expected).toBeLessThanOrEqual(average(leaves, mass, 0, 8, pick) + 1e-9);
      },
    ),
  );
});

it('says how likely its leaves lead to a verdict at all', () => {
  // At most 5.5, and no leaf of it: between 5 and 6, an eighth of the bracket, nobody can tell.
  const found = leafOfFewestTries({ goes: 0, stops: 8 }, leaves, { upper: 5.5 })!;
  expect(found.decides).toBeCloseTo(7 / 8, 12);
  // 6 and then 5, or 5 and then 6: 1 + 6/8, against 1 + 3/8.
  expect(found).toMatchObject({ leaf: 5, expected: 1 + 3 / 8 });
});

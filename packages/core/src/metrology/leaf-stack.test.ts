import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { leafStacks, stackDoubt } from './leaf-stack.ts';

const THOU = 25.4e-6;
const thou = (...leaves: number[]) => leaves.map((leaf) => leaf * THOU);

it('finds the stack that makes a gap no single leaf makes', () => {
  const owned = thou(1.5, 2, 3, 10, 15, 20, 25);
  const [best] = leafStacks(owned, 38.5 * THOU);
  // 3 + 10 + 25 = 38 and 1.5 + 15 + 20 = 36.5; 2 + 10 + 25 = 37 and 1.5 + 10 + 25 = 36.5 lie farther off.
  expect(best?.leaves.map((t) => Math.round((t / THOU) * 10) / 10)).toEqual([3, 10, 25]);
  expect(leafStacks(owned, 38.5 * THOU, 4)[0]?.leaves).toHaveLength(4);
});

it('of stacks as near takes the one of fewest leaves, and uses no leaf twice', () => {
  const [best, next] = leafStacks(thou(2, 3, 5), 5 * THOU);
  expect(best?.leaves).toHaveLength(1);
  expect(Math.abs((next?.thickness ?? 0) - 5 * THOU)).toBeGreaterThan(0.5 * THOU);
  expect(leafStacks(thou(5), 10 * THOU)[0]?.thickness).toBeCloseTo(5 * THOU, 12);
});

it('the nearest stack is as near as any way of laying the leaves', () => {
  const leaf = fc.integer({ min: 1, max: 30 });
  fc.assert(
    fc.property(
      fc.uniqueArray(leaf, { minLength: 1, maxLength: 7 }),
      fc.integer({ min: 1, max: 80 }),
      (set, wanted) => {
        const [best] = leafStacks(thou(...set), wanted * THOU, 3);
        const sums = Array.from({ length: 1 << set.length }, (_, bits) =>
          set.filter((_, i) => (bits >> i) & 1),
        )
          .filter((some) => some.length > 0 && some.length <= 3)
          .map((some) => some.reduce((s, t) => s + t, 0));
        const nearest = Math.min(...sums.map((s) => Math.abs(s - wanted)));
        expect(Math.abs((best?.thickness ?? 0) / THOU - wanted)).toBeCloseTo(nearest, 6);
      },
    ),
  );
});

it('three leaves of .0005 that err each by itself make .0009, and films between them more', () => {
  const leaf = (common: number, own: number) => ({ common, own });
  // √3 × .0005 = .000866.
  expect(stackDoubt([leaf(0, 0.0005), leaf(0, 0.0005), leaf(0, 0.0005)]).own).toBeCloseTo(0.000866, 6);
  expect(stackDoubt([leaf(0, 3), leaf(0, 3)], 4)).toEqual({ common: 0, own: Math.sqrt(9 + 9 + 16) });
  expect(stackDoubt([leaf(1, 3)], 4)).toEqual({ common: 1, own: 3 });
});

it('what a set has in common, such as all its leaves being worn alike, adds straight', () => {
  const { common, own } = stackDoubt([
    { common: 2, own: 1 },
    { common: 3, own: 1 },
  ]);
  expect(common).toBe(5);
  expect(own).toBeCloseTo(Math.SQRT2, 12);
});

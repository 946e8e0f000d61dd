import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { selectiveGroups } from './selective-groups.ts';

const within = (groups: ReturnType<typeof selectiveGroups>, holes: number[], parts: number[]) =>
  groups.flatMap((group) => group.holes.flatMap((h) => group.parts.map((p) => holes[h]! - parts[p]!)));

it('two sizes of pistons and two of bores fall into two groups, by hand', () => {
  // Limits 15 to 25: middle 20, a group may be 5 long. Holes 100, 102, 110; parts 81 (as 101) and 91 (as 111).
  const groups = selectiveGroups([100, 110, 102], [91, 81], 15, 25);
  expect(groups.map(({ holes, parts }) => [holes, parts])).toEqual([
    [[0, 2], [1]],
    [[1], [0]],
  ]);
  expect(groups[0]!.range).toEqual([19, 21]);
  expect(groups[1]!.range).toEqual([19, 19]);
});

it('a hole that no part fits stands alone and has no clearance', () => {
  const groups = selectiveGroups([100, 200], [80], 15, 25);
  expect(groups).toHaveLength(2);
  expect(groups[1]).toEqual({ holes: [1], parts: [] });
});

it('any part of a group fits any hole of it, everything is placed once, and no fewer groups would do', () => {
  const sizes = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 7 });
  fc.assert(
    fc.property(sizes, sizes, fc.integer({ min: 1, max: 20 }), (holes, parts, width) => {
      const [lower, upper] = [10, 10 + width];
      const groups = selectiveGroups(holes, parts, lower, upper);
      for (const clearance of within(groups, holes, parts)) {
        expect(clearance).toBeGreaterThanOrEqual(lower - 1e-6);
        expect(clearance).toBeLessThanOrEqual(upper + 1e-6);
      }
      expect(groups.flatMap((group) => group.holes).sort((a, b) => a - b)).toEqual(holes.map((_, i) => i));
      expect(groups.flatMap((group) => group.parts).sort((a, b) => a - b)).toEqual(parts.map((_, i) => i));
      // By another way: points further apart than a group is long, taken greedily from the right, each need their own.
      const line = [...holes, ...parts.map((size) => size + (lower + upper) / 2)].sort((a, b) => b - a);
      let need = 0;
      let last = Number.POSITIVE_INFINITY;
      for (const at of line)
        if (last - at > width / 2 + 1e-6) {
          need++;
          last = at;
        }
      expect(groups.length).toBe(need);
    }),
  );
});

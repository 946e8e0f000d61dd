import fc from 'fast-check';
import { expect, it } from 'vitest';
import { metre } from '../units/si.ts';
import { leastTotal, shimsFor } from './shims.ts';

const thou = (values: readonly number[]) => values.map((t) => metre(t * 1e-3));

it('a gap of .0235 wants .0075 with two of .005 to be left at .006', () => {
  const found = shimsFor(metre(0.0235), thou([5, 6, 7.5]), metre(0.006));
  expect(found.counts).toEqual([2, 0, 1]);
  expect(found.gap).toBeCloseTo(0.006, 12);
});

it('thrust washers go in as pairs: end float of .0115 comes to .0065 by one pair of .0025', () => {
  const found = shimsFor(metre(0.0115), thou([2.5, 5]), metre(0.006), { pairs: true });
  expect(found.counts).toEqual([2, 0]);
  expect(found.gap).toBeCloseTo(0.0065, 12);
});

it('of two stacks alike the one with fewer shims', () => {
  expect(shimsFor(metre(0.02), thou([5, 10]), metre(0.01)).counts).toEqual([0, 1]);
});

it('no other stack comes nearer', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 4 }),
      fc.integer({ min: 5, max: 40 }),
      (sizes, gap) => {
        const found = shimsFor(metre(gap), sizes.map(metre), metre(6), { most: 3 });
        // Every stack of at most three, spelled out another way.
        const sums = new Set([0]);
        for (let n = 0; n < 3; n++) for (const s of [...sums]) for (const t of sizes) sums.add(s + t);
        const best = Math.min(...[...sums].map((s) => Math.abs(gap - s - 6)));
        expect(Math.abs(found.gap - 6)).toBeCloseTo(best, 9);
      },
    ),
  );
});

it('two leaves of .0045 that go in together prove the total .009, over a limit of .009 less a tenth', () => {
  expect(leastTotal(thou([4.5, 4.5]))).toBeCloseTo(0.009, 12);
});

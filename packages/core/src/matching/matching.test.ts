import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matching } from './match.ts';

/** Every pairing there is, by trying all. */
function* pairings(rows: number, columns: number, taken: number[] = []): Generator<number[]> {
  if (taken.length === rows) yield taken;
  else
    for (let j = 0; j < columns; j++) if (!taken.includes(j)) yield* pairings(rows, columns, [...taken, j]);
}

const table = fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 0, max: 2 })).chain(([rows, more]) =>
  fc.array(
    fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.double({ min: -1e3, max: 1e3, noNaN: true })), {
      minLength: rows + more,
      maxLength: rows + more,
    }),
    { minLength: rows, maxLength: rows },
  ),
);

const chosen = (costs: readonly (readonly number[])[], pairing: readonly number[]) =>
  pairing.map((j, i) => costs[i]![j]!);
const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

describe('matching', () => {
  it('finds the least sum of all pairings', () => {
    fc.assert(
      fc.property(table, (costs) => {
        const found = matching(costs)!;
        const least = Math.min(
          ...[...pairings(costs.length, costs[0]!.length)].map((p) => sum(chosen(costs, p))),
        );
        expect(found.total).toBeCloseTo(least, 9);
        expect(new Set(found.assignment).size).toBe(costs.length);
        expect(found.total).toBeCloseTo(sum(chosen(costs, found.assignment)), 9);
      }),
      { numRuns: 300 },
    );
  });

  it('finds the least worst pair, and the least sum with it', () => {
    fc.assert(
      fc.property(table, (costs) => {
        const found = matching(costs, 'worst')!;
        const all = [...pairings(costs.length, costs[0]!.length)].map((p) => chosen(costs, p));
        const worst = Math.min(...all.map((c) => Math.max(...c)));
        expect(found.worst).toBeCloseTo(worst, 12);
        const least = Math.min(...all.filter((c) => Math.max(...c) === worst).map(sum));
        expect(found.total).toBeCloseTo(least, 9);
      }),
      { numRuns: 300 },
    );
  });

  it('never takes a forbidden pair, and says when there is no other way', () => {
    fc.assert(
      fc.property(
        table,
        fc.array(fc.tuple(fc.nat(4), fc.nat(6)), { maxLength: 8 }),
        fc.constantFrom('sum' as const, 'worst' as const),
        (costs, some, objective) => {
          const forbidden = some.filter(([i, j]) => i < costs.length && j < costs[0]!.length);
          const closed = new Set(forbidden.map(([i, j]) => `${i},${j}`));
          const open = [...pairings(costs.length, costs[0]!.length)].filter((p) =>
            p.every((j, i) => !closed.has(`${i},${j}`)),
          );
          const found = matching(costs, objective, forbidden);
          if (open.length === 0) expect(found).toBeUndefined();
          else if (objective === 'sum')
            expect(found!.total).toBeCloseTo(Math.min(...open.map((p) => sum(chosen(costs, p)))), 9);
          else
            expect(found!.worst).toBeCloseTo(Math.min(...open.map((p) => Math.max(...chosen(costs, p)))), 12);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('does not care by how much a whole row or column costs more', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 12, maxLength: 12 }), {
          minLength: 12,
          maxLength: 12,
        }),
        fc.integer({ min: 0, max: 500 }),
        (costs, more) => {
          const dearer = costs.map((row, i) => (i === 3 ? row.map((c) => c + more) : row));
          expect(matching(dearer)!.total - matching(costs)!.total).toBe(more);
        },
      ),
    );
  });

  it('settles tables full of ties', () => {
    const tied = Array.from({ length: 60 }, (_, i) => Array.from({ length: 60 }, (_, j) => (i * j) % 3));
    // Row i is zero wherever i j is a multiple of 3: enough zeros for a pairing of nothing but them.
    const found = matching(tied)!;
    expect(new Set(found.assignment).size).toBe(60);
    expect(found.total).toBe(matching(tied, 'worst')!.total);
  });
});

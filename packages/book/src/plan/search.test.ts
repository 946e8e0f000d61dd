import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestSet, completions, count, type Found, frontier, type Problem } from './search.ts';

/** Every subset looked at, with no cleverness. */
function bySubsets({ choices, requirements, oil, chance, banned = 0 }: Problem): Found[] {
  const sets: Found[] = [];
  for (let taken = 0; taken < 1 << choices.length; taken++) {
    const chosen = choices.filter((_, i) => taken & (1 << i));
    if ((taken & banned) !== 0) continue;
    if (chosen.some(({ needs, excludes }) => (needs & ~taken) !== 0 || (excludes & taken) !== 0)) continue;
    if (requirements.some((bits) => (bits & taken) === 0)) continue;
    const price = chosen.reduce((sum, one) => sum + one.price, 0);
    sets.push({ taken, price, chance: chance(taken & oil) });
  }
  return sets.sort((a, b) => a.price - b.price || b.chance - a.chance);
}

/**
 * Small problems in which each oil offer adds to a pressure: the chance rises with what is taken, and a set is
 * hopeless where even all that is open leaves it under one half.
 */
const problems: fc.Arbitrary<Problem> = fc.integer({ min: 1, max: 9 }).chain((n) => {
  const mask = fc.nat((1 << n) - 1);
  const few = fc.array(fc.nat(n - 1), { maxLength: 2 }).map((bits) => bits.reduce((m, i) => m | (1 << i), 0));
  return fc
    .record({
      prices: fc.array(fc.nat(6), { minLength: n, maxLength: n }),
      needs: fc.array(few, { minLength: n, maxLength: n }),
      excludes: fc.array(few, { minLength: n, maxLength: n }),
      requirements: fc.array(
        mask.filter((bits) => bits !== 0),
        { maxLength: 3 },
      ),
      oil: mask,
      banned: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: few }),
      gains: fc.array(fc.nat(25), { minLength: n, maxLength: n }),
      rare: fc.array(fc.boolean(), { minLength: n * 2, maxLength: n * 2 }),
      capped: fc.boolean(),
    })
    .map(({ prices, needs, excludes, requirements, oil, banned, gains, rare, capped }): Problem => {
      const pressure = (set: number) =>
        gains.reduce((sum, gain, i) => (set & oil & (1 << i) ? sum + gain : sum), 0);
      // Over 90 too much may be as bad as too little, as an upper limit of pressure is.
      const exact = (set: number) =>
        Math.max(0, capped && pressure(set) > 90 ? 40 : Math.min(100, 20 + pressure(set))) / 100;
      // Under what is asked for the answer may be anything under it.
      const chance = (set: number, atLeast = 0) => (exact(set) < atLeast ? exact(set) / 2 : exact(set));
      const other = excludes.map((bits, i) => (rare[i] ? bits & ~(1 << i) : 0));
      return {
        choices: prices.map((price, i) => ({
          price,
          needs: rare[n + i] ? needs[i]! & ~(1 << i) : 0,
          excludes:
            other[i]! | other.reduce((bits, theirs, j) => (theirs & (1 << i) ? bits | (1 << j) : bits), 0),
        })),
        requirements,
        oil,
        banned,
        chance,
        hopeful: (taken, open) => 20 + pressure(taken | open) >= 50,
      };
    });
});

describe('held against every subset looked at', () => {
  it('the cheapest set that passes costs what the cheapest of all subsets does, and is one of them', () => {
    fc.assert(
      fc.property(problems, fc.constantFrom(0.5, 0.7, 0.9), (problem, confidence) => {
        const all = bySubsets(problem).filter(({ chance }) => chance >= confidence);
        const found = cheapestSet(problem, confidence);
        expect(found?.price).toBe(all[0]?.price);
        expect(found?.chance).toBe(all[0]?.chance);
        if (found) expect(all).toContainEqual(found);
      }),
      { numRuns: 400 },
    );
  });

  it('the cheapest set whatever the pressure is the first of a search that knows of no oil', () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const dry = completions({ ...problem, oil: 0, hopeful: () => true })[0];
        expect(dry?.price).toBe(bySubsets(problem)[0]?.price);
      }),
      { numRuns: 300 },
    );
  });

  it('the frontier rises in price and chance, and nothing cheaper is as likely as one of its points', () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const all = bySubsets(problem);
        const dry = completions({ ...problem, oil: 0, hopeful: () => true })[0];
        const points = frontier(problem, dry);
        for (const [i, point] of points.entries()) {
          expect(all).toContainEqual(point);
          if (i > 0) {
            expect(point.price).toBeGreaterThan(points[i - 1]!.price);
            expect(point.chance).toBeGreaterThan(points[i - 1]!.chance);
            const rivals = all.filter(({ price }) => price <= point.price);
            expect(Math.max(...rivals.map(({ chance }) => chance))).toBe(point.chance);
          }
        }
        const best = Math.max(0, ...all.map(({ chance }) => chance));
        if (best >= 0.5) expect(points.at(-1)?.chance).toBe(best);
      }),
      { numRuns: 400 },
    );
  });
});

it('what is dearer than the best is not asked about', () => {
  const asked: number[] = [];
  const problem: Problem = {
    choices: [1, 2, 4, 8].map((price) => ({ price, needs: 0, excludes: 0 })),
    requirements: [],
    oil: 0b1111,
    chance: (oil) => {
      asked.push(oil);
      return oil & 0b10 ? 1 : 0.6;
    },
    hopeful: () => true,
  };
  expect(cheapestSet(problem, 0.95)).toEqual({ taken: 0b10, price: 2, chance: 1 });
  expect(asked.length).toBe(3);
});

it('where it is hopeless even with all that is open, nothing below is looked at', () => {
  let looked = 0;
  const sets = completions({
    choices: Array.from({ length: 20 }, () => ({ price: 1, needs: 0, excludes: 0 })),
    requirements: [],
    oil: (1 << 20) - 1,
    chance: () => 0,
    hopeful: (taken, open) => {
      looked++;
      return count(taken | open) >= 19;
    },
  });
  expect(sets).toHaveLength(21);
  expect(looked).toBeLessThan(500);
});

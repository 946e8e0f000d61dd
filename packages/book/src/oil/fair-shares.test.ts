import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fairShares } from './fair-shares.ts';

/** Worths by the players' names, all others zero. */
const game =
  (players: string, worths: Readonly<Record<string, number>>) =>
  (set: number): number =>
    worths[[...players].filter((_, i) => (set >> i) & 1).join('')] ?? 0;

describe('fair shares', () => {
  it('of two, by hand: the mean of coming first and coming last', () => {
    // a first 1, after b 10 − 3 = 7; b first 3, after a 10 − 1 = 9.
    const { shares, exact } = fairShares(2, game('ab', { a: 1, b: 3, ab: 10 }));
    expect([...shares]).toEqual([4, 6]);
    expect(exact).toBe(true);
  });

  it('of three, by hand, over all six orders', () => {
    const worth = game('abc', { a: 0, b: 6, c: 3, ab: 12, ac: 6, bc: 9, abc: 21 });
    // a: abc 0, acb 0, bac 6, cab 3, bca 12, cba 12 = 33; b: 12, 15, 6, 15, 6, 6 = 60; c: 9, 6, 9, 3, 3, 3 = 33.
    const { shares } = fairShares(3, worth);
    [33 / 6, 60 / 6, 33 / 6].forEach((share, i) => {
      expect(shares[i]).toBeCloseTo(share, 12);
    });
  });

  it('of the glove game, which is in every textbook: two left hands and a right one', () => {
    const { shares } = fairShares(3, game('abr', { ar: 1, br: 1, abr: 1 }));
    [1 / 6, 1 / 6, 4 / 6].forEach((share, i) => {
      expect(shares[i]).toBeCloseTo(share, 12);
    });
  });

  it('of what only adds are each one’s own', () => {
    const own = [3, -1, 0, 7.5];
    const sum = (set: number): number => own.reduce((s, x, i) => s + ((set >> i) & 1 ? x : 0), 2);
    for (const exactUpTo of [12, 0]) {
      const { shares, errors } = fairShares(4, sum, { exactUpTo });
      own.forEach((x, i) => {
        expect(shares[i]).toBeCloseTo(x, 12);
        expect(errors[i]).toBeLessThan(1e-6);
      });
    }
  });

  it('add up to the whole, give equals the same and idlers nothing, whatever the worths', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 16, maxLength: 16 }),
        fc.boolean(),
        (worths, drawn) => {
          // Player 4 changes nothing, player 5 is worth 3 to any set.
          const worth = (set: number): number => worths[set & 15]! + ((set >> 5) & 1 ? 3 : 0);
          const { shares } = fairShares(6, worth, drawn ? { exactUpTo: 0, orders: 20 } : {});
          const whole = worth(63) - worth(0);
          expect(shares.reduce((s, x) => s + x, 0)).toBeCloseTo(whole, 9);
          expect(shares[4]).toBeCloseTo(0, 9);
          expect(shares[5]).toBeCloseTo(3, 9);
        },
      ),
    );
  });

  it('drawn, lie within their standard errors of those of every order, the same for the same seed', () => {
    // What matters depends on who came before.
    const worth = (set: number): number => {
      let sum = 0;
      for (let i = 0; i < 8; i++) if ((set >> i) & 1) sum += (i + 1) * (i % 3 === 0 ? 1 : 0.5);
      return sum ** 3 + ((set & 9) === 9 ? 40 : 0);
    };
    const all = fairShares(8, worth);
    const some = fairShares(8, worth, { exactUpTo: 4, orders: 400, seed: 5 });
    expect(some.exact).toBe(false);
    expect(some.orders).toBe(400);
    let far = 0;
    some.shares.forEach((share, i) => {
      // Four times: one in sixteen thousand.
      expect(Math.abs(share - all.shares[i]!)).toBeLessThan(4 * some.errors[i]! + 1e-9);
      if (some.errors[i]! > 0) far = Math.max(far, Math.abs(share - all.shares[i]!) / some.errors[i]!);
    });
    expect(far).toBeGreaterThan(0);
    expect(fairShares(8, worth, { exactUpTo: 4, orders: 400, seed: 5 })).toEqual(some);
    expect(fairShares(8, worth, { exactUpTo: 4, orders: 400, seed: 6 })).not.toEqual(some);
  });

  it('ask for each set once', () => {
    const asked: number[] = [];
    fairShares(5, (set) => asked.push(set));
    expect([...asked].sort((a, b) => a - b)).toEqual(Array.from({ length: 32 }, (_, i) => i));
    const drawn: number[] = [];
    fairShares(5, (set) => drawn.push(set), { exactUpTo: 0 });
    expect(new Set(drawn).size).toBe(drawn.length);
  });
});

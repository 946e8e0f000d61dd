import { normalCdf, term, uncertain } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { chanceOfDeciding, chanceWithin } from './next-move-chance.ts';

const known = (value: number, u: number) => uncertain(value, term('known', u));
const reading = (r: number, ...more: ReturnType<typeof term>[]) => uncertain(0, term('next', r), ...more);
const upper = (limit: number) => ({ set: 'wear', limits: { upper: limit } }) as const;
const Z = 1.6448536269514722;

it('agrees with the closed form for one limit and an independent reading', () => {
  // m' is normal about m with s = u²/√(u² + r²), u' = u r/√(u² + r²); decided where |m' − L| ≥ 1.645 u'.
  const [m, u, r, L] = [9.5, 1, 0.3, 10];
  const s = u ** 2 / Math.hypot(u, r);
  const after = (u * r) / Math.hypot(u, r);
  const isIn = normalCdf((L - Z * after - m) / s);
  const isOut = 1 - normalCdf((L + Z * after - m) / s);
  const chance = chanceOfDeciding({ numbers: [known(m, u)], ...upper(L) }, reading(r));
  // One time in twenty the two disagree, and then nothing decides; inside 1.96 it is the closed form to the digit.
  expect(Math.abs(chance.in - isIn)).toBeLessThan(0.05);
  expect(Math.abs(chance.out - isOut)).toBeLessThan(0.05);
  expect(chance.decided).toBeCloseTo(chance.in + chance.out, 12);
});

it('counts to the digit what lies where the two agree', () => {
  // In from m' = 10 − 1.645 u' down to where the two no longer agree, z = −1.96: beyond, only by what each says alone.
  const [m, u, r, L] = [9.5, 1, 0.3, 10];
  const D = Math.hypot(u, r);
  const s = u ** 2 / D;
  const after = (u * r) / D;
  const zIn = (L - Z * after - m) / s;
  const zOut = (L + Z * after - m) / s;
  const chance = chanceOfDeciding({ numbers: [known(m, u)], ...upper(L) }, reading(r));
  const agree = 1.959963984540054;
  // What was known alone cannot tell (p = .69), so beyond ±1.96 nothing decides.
  expect(chance.in).toBeCloseTo(normalCdf(zIn) - normalCdf(-agree), 5);
  expect(chance.out).toBeCloseTo(normalCdf(agree) - normalCdf(zOut), 5);
});

it('is nothing for a reading that has all its doubt in common with what is known', () => {
  const common = term('micrometer', 1);
  const undecided = { numbers: [uncertain(9.5, common)], ...upper(10) };
  expect(chanceOfDeciding(undecided, uncertain(0, common)).decided).toBe(0);
});

it('is nearly certain for a reading without doubt, and grows with finer instruments', () => {
  const undecided = { numbers: [known(9.5, 1)], ...upper(10) };
  const chances = [3, 1, 0.3, 0.1, 0.001].map((r) => chanceOfDeciding(undecided, reading(r)).decided);
  expect(chances).toEqual([...chances].sort((a, b) => a - b));
  // One time in twenty it disagrees with what was known.
  expect(chances.at(-1)).toBeCloseTo(0.95, 2);
});

describe('a number read where only leaves were tried', () => {
  const bracket = (from: number, to: number, edge: number) => ({
    kind: 'interval' as const,
    lower: uncertain(from, term('leaf', edge)),
    upper: uncertain(to, term('other leaf', edge)),
  });
  const max = (limit: number) => ['wear', { upper: limit }] as const;

  it('decides everywhere but near the limit, by the share of an even gap that lies farther off', () => {
    // Hard edges and r small against the bracket: cannot tell within 1.645 r of the limit, 2 · 1.645 · .05 of 1.
    const chance = chanceWithin(bracket(4, 5, 1e-6), ...max(4.5), reading(0.05))!;
    expect(chance.in).toBeCloseTo(0.5 - Z * 0.05, 3);
    expect(chance.out).toBeCloseTo(0.5 - Z * 0.05, 3);
  });

  it('agrees with a plain sum over the gap and the reading', () => {
    const [r, limit] = [0.1, 4.6];
    const chance = chanceWithin(bracket(4, 5, 0.02), ...max(limit), reading(r))!;
    // The leaves' edges are sharp against r: a reading is in when Φ of what it and the bracket leave is 95 %.
    let [isIn, isOut, all] = [0, 0, 0];
    const share = (y: number, from: number, to: number) =>
      normalCdf((to - y) / r) - normalCdf((from - y) / r);
    for (let g = 4.0005; g < 5; g += 0.001)
      for (let z = -4; z <= 4; z += 0.02) {
        const weight = Math.exp((-z * z) / 2);
        const y = g + r * z;
        const p = share(y, 4, limit) / share(y, 4, 5);
        all += weight;
        if (p >= 0.95) isIn += weight;
        if (p <= 0.05) isOut += weight;
      }
    expect(Math.abs(chance.in - isIn / all)).toBeLessThan(0.01);
    expect(Math.abs(chance.out - isOut / all)).toBeLessThan(0.01);
  });

  it('is nothing that can be said of a gap nobody knows the end of', () => {
    const { lower } = bracket(4, 5, 0.1);
    expect(chanceWithin({ kind: 'interval', lower }, ...max(4.5), reading(0.1))).toBeUndefined();
  });

  it('grows with the instrument, and is small for one coarser than the bracket', () => {
    const chances = [1, 0.3, 0.1, 0.01].map(
      (r) => chanceWithin(bracket(4, 5, 0.01), ...max(4.5), reading(r))!.decided,
    );
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    expect(chances[0]).toBeLessThan(0.1);
    expect(chances.at(-1)).toBeGreaterThan(0.95);
  });
});

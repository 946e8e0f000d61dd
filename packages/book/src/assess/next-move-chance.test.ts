import { normalCdf, term, uncertain } from '@fettle/core';
import { expect, it } from 'vitest';
import { chanceOfDeciding } from './next-move-chance.ts';

const known = (value: number, u: number) => uncertain(value, term('known', u));
const reading = (r: number, ...more: ReturnType<typeof term>[]) => uncertain(0, term('next', r), ...more);
const upper = (limit: number) => ({ set: 'wear', limits: { upper: limit }, derived: true }) as const;
const Z = 1.6448536269514722;

it('agrees with the closed form for one limit and an independent reading', () => {
  // m' is normal about m with s = u²/√(u² + r²), u' = u r/√(u² + r²); decided where |m' − L| ≥ 1.645 u'.
  const [m, u, r, L] = [9.5, 1, 0.3, 10];
  const s = u ** 2 / Math.hypot(u, r);
  const after = (u * r) / Math.hypot(u, r);
  const isIn = normalCdf((L - Z * after - m) / s);
  const isOut = 1 - normalCdf((L + Z * after - m) / s);
  const chance = chanceOfDeciding({ numbers: [known(m, u)], ...upper(L) }, reading(r));
  // Derived: disagreement, one time in twenty, widens u'; inside 1.96 it is the closed form to the digit.
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
  const chance = chanceOfDeciding({ numbers: [known(m, u)], ...upper(L), derived: false }, reading(r));
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
  expect(chances.at(-1)).toBeGreaterThan(0.95);
});

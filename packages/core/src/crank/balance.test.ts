import { expect, it } from 'vitest';
import { bobweight, permissibleUnbalance, pinLoad, rodWeights } from './balance.ts';

it('half of what goes up and down balances the first order of a two-plane right-angled pair', () => {
  // Two pistons at 90° on one pin: their forces along their own bores add to a vector of constant length m r ω².
  const force = (turn: number) => {
    const [a, b] = [-Math.PI / 4, Math.PI / 4];
    const along = (bore: number) => Math.cos(turn - bore);
    const x = along(a) * Math.sin(a) + along(b) * Math.sin(b);
    const y = along(a) * Math.cos(a) + along(b) * Math.cos(b);
    return Math.hypot(x, y);
  };
  for (let i = 0; i < 12; i++) expect(force((i * Math.PI) / 6)).toBeCloseTo(1, 12);
  // So one piston's mass of the two is to be hung on: the factor is one half of both.
  expect(bobweight({ rotating: 0, reciprocating: 2 }, 0.5)).toBe(1);
});

it('counts what turns for every rod, and the oil once', () => {
  const load = pinLoad({
    rods: 2,
    bigEnd: 1,
    shells: 0.1,
    smallEnd: 0.5,
    piston: 1,
    pin: 0.2,
    rings: 0.1,
    oil: 0.01,
  });
  expect(load.rotating).toBeCloseTo(2.21, 12);
  expect(load.reciprocating).toBeCloseTo(3.6, 12);
});

it('a rod whose ends weigh alike has its weight half way, and a grade of 2.5 at 9549 rpm is 2.5 µm', () => {
  expect(rodWeights(0.3, 0.3, 0.15)).toEqual({ total: 0.6, fromBigEnd: 0.075 });
  const { eccentricity, unbalance } = permissibleUnbalance(0.0025, 4, (9549.2966 * Math.PI) / 30);
  expect(eccentricity).toBeCloseTo(2.5e-6, 12);
  expect(unbalance).toBeCloseTo(1e-5, 10);
});

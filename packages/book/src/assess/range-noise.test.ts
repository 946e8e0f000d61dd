import { normalCdf, term, uncertain } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { MISSING, valued } from './operand.ts';
import { rangeNoise } from './range-noise.ts';

const alike = (n: number, own: number) =>
  Array.from({ length: n }, (_, i) => valued(uncertain(1, term('instrument', 3), term(`reading ${i}`, own))));

it.each([2, 3, 4, 5, 8, 12, 16])('of %s readings it is d₂ times the own error, by integration', (n) => {
  // d₂ = ∫ 1 − Φⁿ − (1 − Φ)ⁿ, the mean of greatest less least by its distribution.
  let d2 = 0;
  for (let i = 0; i < 4000; i++) {
    const below = normalCdf(-9 + (18 * (i + 0.5)) / 4000);
    d2 += ((1 - below ** n - (1 - below) ** n) * 18) / 4000;
  }
  expect(rangeNoise(alike(n, 0.5))).toMatchObject({ count: n });
  expect(rangeNoise(alike(n, 0.5))!.mean).toBeCloseTo(0.5 * d2, 3);
});

it('of one reading, or where one is missing, there is none', () => {
  expect(rangeNoise(alike(1, 0.5))).toBeUndefined();
  expect(rangeNoise([...alike(2, 0.5), MISSING])).toBeUndefined();
});

const taper = (limit: string) => {
  const bench = new Bench({
    axes: { end: ['front', 'rear'] },
    characteristics: [
      inches('journal', { places: ['end'] }),
      inches('taper', {
        relation: { reduce: { by: 'range', over: ['end'], of: 'journal' } },
        limits: { wear: { upper: limit } },
      }),
    ],
  });
  bench.read('journal', '2.1236 in', { at: 'front', instrument: 'mic' });
  bench.read('journal', '2.1237 in', { at: 'rear', instrument: 'mic' });
  return bench.judgement('taper').cautions;
};

it('a taper with a limit within a few u says what it would show of nothing: .00008 in against .0005', () => {
  // Own error √½ × .1 thou; of two readings 1.128 times that: .08 thou.
  const [caution] = taper('0.0005 in');
  expect(caution).toMatchObject({ code: 'verdict/range-reads-wide' });
  expect(caution!.message).toContain('0.00008 in');
  expect(taper('0.0060 in')).toEqual([]);
});

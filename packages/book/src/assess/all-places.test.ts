import { normalCdf, term, uncertain } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { allPlaces } from './all-places.ts';
import { valued } from './operand.ts';
import { verdictOf } from './verdict.ts';

/** Sizes in units of u over a lower limit of 0; a share of the variance is common to all. */
function judged(sizes: readonly number[], common: number) {
  const places = sizes.map((value, i) => {
    const number = valued(
      uncertain(value, term('instrument', Math.sqrt(common)), term(`reading ${i}`, Math.sqrt(1 - common))),
    );
    return { number, verdicts: { wear: verdictOf(number, undefined, 'wear', { lower: 0 })! } };
  });
  const worst = [...places].sort(
    (a, b) => a.verdicts.wear.probabilityIn! - b.verdicts.wear.probabilityIn!,
  )[0]!;
  return allPlaces(places, 'wear', worst.verdicts.wear);
}

it('of independent places it is the product: two at 96 % each are in by 92 %, which proves nothing', () => {
  const p = normalCdf(1.75);
  expect(p).toBeCloseTo(0.96, 3);
  const both = judged([1.75, 1.75], 0);
  expect(both.probabilityIn).toBeCloseTo(p * p, 3);
  expect(both).toMatchObject({ verdict: 'cannot-tell', places: 2 });
});

it('of four places half of whose variance is common it is the one integral over what is common', () => {
  // P = ∫ Φ((a + s √½)/√½)⁴ φ(s) ds, the definition, by the midpoint rule.
  const a = 1.8;
  let wanted = 0;
  for (let i = 0; i < 4000; i++) {
    const s = -8 + (16 * (i + 0.5)) / 4000;
    const density = Math.exp(-0.5 * s * s) / Math.sqrt(2 * Math.PI);
    wanted += (normalCdf((a + s * Math.SQRT1_2) / Math.SQRT1_2) ** 4 * density * 16) / 4000;
  }
  expect(normalCdf(a)).toBeGreaterThan(0.95);
  expect(wanted).toBeLessThan(0.95);
  const all = judged([a, a, a, a], 0.5);
  expect(all.probabilityIn).toBeCloseTo(wanted, 2);
  expect(all.verdict).toBe('cannot-tell');
});

it('of places that share all their doubt it is that of the worst', () => {
  expect(judged([1.75, 1.9, 2], 1)).toMatchObject({ verdict: 'in' });
  expect(judged([1.75, 1.9, 2], 1).probabilityIn).toBeCloseTo(normalCdf(1.75), 2);
});

it('a place alone near its limit decides as before; one that is out is out', () => {
  expect(judged([1.75, 8, 9], 0)).toMatchObject({ verdict: 'in' });
  expect(judged([1.75, 8, 9], 0).places).toBeUndefined();
  expect(judged([-3, 1.7, 1.7], 0)).toMatchObject({ verdict: 'out' });
});

it('where the bounds agree nothing is integrated and the lower one is given, never above the truth', () => {
  const found = judged([2.6, 2.7], 0);
  const [p, q] = [normalCdf(2.6), normalCdf(2.7)];
  expect(found.verdict).toBe('in');
  expect(found.probabilityIn).toBeLessThanOrEqual(p * q);
  expect(found.probabilityIn).toBeCloseTo(p * q, 4);
});

it('what to do next is asked of the worst place’s even share: nothing as coarse as what was read would do', () => {
  const bench = new Bench({
    axes: { turn: ['0', '90'] },
    characteristics: [
      inches('journal', {
        places: ['turn'],
        reduce: { by: 'worst', over: ['turn'] },
        limits: { wear: { lower: '2.4980 in' } },
      }),
    ],
  });
  for (const at of ['0', '90']) bench.read('journal', '2.49817 in', { at, instrument: 'mic' });
  const judged = bench.judgement('journal');
  // 1.7 u above the limit each: 95.5 % alone, 93 % both.
  expect(judged).toMatchObject({ status: 'cannot-tell', verdicts: { wear: { places: 2 } } });
  expect(judged.members.map(({ verdicts }) => verdicts.wear?.verdict)).toEqual(['in', 'in']);
  // .17 thou over the 1.96 that leave 2.5 % each, Bonferroni: .087 thou, less than the .1 thou there is.
  expect(judged.next).toMatchObject({ move: 'finer-than-owned' });
  const needed = judged.next?.move === 'finer-than-owned' ? judged.next.needed / 25.4e-6 : Number.NaN;
  expect(needed).toBeCloseTo(0.17 / 1.96, 3);
});

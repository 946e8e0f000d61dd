import { expanded } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';

/** A micrometer whose doubt is all its own, known from so many degrees of freedom. */
function read(value: string, own_dof?: number) {
  const bench = new Bench({
    characteristics: [inches('size', { limits: { wear: { lower: '2.4980 in', upper: '2.5000 in' } } })],
  });
  bench.declare('studied', 'micrometer', {
    expanded: '0.0006 in',
    coverage: 2,
    common_share: 0,
    ...(own_dof !== undefined && { own_dof }),
  });
  bench.read('size', `${value} in`, { instrument: 'studied' });
  return bench.judgement('size');
}

it('an instrument studied by two readings proves nothing that 6.31 u do not: GUM table G.2, one degree of freedom', () => {
  // u .3 thou: 2.4990 lies 3.3 u inside both limits, a proof where u is known and none at one degree of freedom.
  expect(read('2.4990').status).toBe('in');
  expect(read('2.4990', 1)).toMatchObject({ status: 'cannot-tell' });
  expect(read('2.4990', 1).verdicts.wear!.guardBand! / 25.4e-6).toBeCloseTo(6.314 * 0.3, 2);
});

it('the verdict and the bar beside it never contradict: what the bar leaves out on both sides is proven', () => {
  for (const dof of [1, 2, 3, 5, 9, 30])
    for (const value of ['2.4985', '2.4990', '2.4995', '2.4970', '2.5012']) {
      const { operand, status } = read(value, dof);
      if (operand.kind !== 'value') throw new Error('no value');
      const { U } = expanded(operand.q);
      const [lower, upper] = [2.498 * 0.0254, 2.5 * 0.0254];
      const [from, to] = [operand.q.value - U, operand.q.value + U];
      // Two-sided 95 % leaves less beyond each limit than the 5 % that a proof on one side accepts.
      if (from >= lower && to <= upper) expect(status).toBe('in');
      if (to < lower || from > upper) expect(status).toBe('out');
      // A bar over both posts holds 95 %, and what lies between them less: never in.
      if (from < lower && to > upper) expect(status).not.toBe('in');
    }
});

import { CATALOGUE, inUnit } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { jobMatching } from './job-matching.ts';
import { movablesOf } from './movable.ts';

/** Bores in one block, pistons that go from bore to bore: limits, target and sizes of the invented Linnet. */
const PISTONS = {
  axes: { cylinder: ['1', '2', '3', '4'] },
  positions: [
    { id: 'block', name: 'Block' },
    { id: 'piston-{cylinder}', name: 'Piston', places: ['cylinder'] },
  ],
  characteristics: [
    inches('bore', { position: 'block', places: ['cylinder'] }),
    inches('piston', { position: 'piston-{cylinder}', places: ['cylinder'] }),
    inches('skirt', {
      position: 'piston-{cylinder}',
      mates: ['block'],
      places: ['cylinder'],
      relation: lessOf('bore', 'piston'),
      limits: { new: { lower: '0.0017 in', upper: '0.0024 in', target: '0.0020 in' } },
    }),
  ],
};

function shop(sizes: readonly string[], bores = ['3.5302', '3.5298', '3.5299', '3.5305']): Bench {
  const bench = new Bench(PISTONS);
  // Fine enough to decide to a tenth: what is tried here is the pairing.
  bench.declare('fine', 'micrometer', { expanded: '0.00004 in', coverage: 2, common_share: 0.5 });
  bench.part('block', 'block', 'machined');
  bores.forEach((size, i) => {
    bench.read('bore', `${size} in`, { at: String(i + 1), instrument: 'fine' });
  });
  sizes.forEach((size, i) => {
    bench.desk.write('part-entered', { part: `p${i + 1}`, name: `P${i + 1}`, condition: 'new' });
    bench.read('piston', `${size} in`, { at: String((i % 4) + 1), part: `p${i + 1}`, instrument: 'fine' });
  });
  return bench;
}

const BACK = ['3.5281', '3.5277', '3.5284', '3.5279'];
const found = (bench: Bench, asked = {}) =>
  jobMatching(bench.book(), { characteristic: 'skirt', ...asked }, CATALOGUE);
const thou = (si: number) => inUnit(si, 'thou');

it('pistons as boxed are .0021 .0021 .0015 .0026, two of them out; exchanging the last two puts all four in', () => {
  const outcome = found(shop(BACK));
  if (!outcome.ok) throw new Error(outcome.issues[0]!.message);
  const { best, boxed, tried, inside, target } = outcome.value;
  expect(thou(target)).toBeCloseTo(2, 9);
  expect(boxed.partOf.map((part, seat) => thou(tried[seat]![part]!.q.value).toFixed(1))).toEqual([
    '2.1',
    '2.1',
    '1.5',
    '2.6',
  ]);
  expect(boxed).toMatchObject({ out: 2, cannotTell: 0 });
  expect(best.partOf).toEqual([0, 1, 3, 2]);
  expect(best).toMatchObject({ out: 0, cannotTell: 0 });
  expect(inside).toBe(true);
  // By hand: deviations .1 .1 0 .1 thou.
  expect(thou(best.deviation)).toBeCloseTo(Math.sqrt(0.03 / 4), 6);
});

it('what is measured on a piston goes with it, what is read in a housing stays there', () => {
  const bench = shop(BACK);
  expect(movablesOf(bench.book()).map(({ characteristic, moves }) => [characteristic.id, moves])).toEqual([
    ['skirt', 'piston-{cylinder}'],
  ]);
  const bound = new Bench({
    ...PISTONS,
    characteristics: PISTONS.characteristics.map((one) =>
      one.id === 'piston' ? { ...one, mates: ['block'] } : one,
    ),
  });
  bound.part('block', 'block', 'machined');
  for (const at of ['1', '2', '3', '4']) {
    bound.read('bore', '3.5300 in', { at, instrument: 'mic' });
    bound.desk.write('part-entered', { part: `p${at}`, name: `P${at}`, condition: 'new' });
    bound.read('piston', '3.5280 in', { at, part: `p${at}`, instrument: 'mic' });
  }
  const outcome = found(bound);
  expect(outcome.ok ? [] : outcome.issues.map(({ code }) => code)).toEqual(['matching/holds-where-read']);
});

it('with no order inside, as few pairs as can be are out, and it says so', () => {
  const outcome = found(shop(['3.5281', '3.5277', '3.5279', '3.5260']));
  if (!outcome.ok) throw new Error(outcome.issues[0]!.message);
  expect(outcome.value.inside).toBe(false);
  expect(outcome.value.best.out).toBe(1);
});

it('one part more than places: the best four are placed, and they are the best by trying every way', () => {
  const outcome = found(shop([...BACK, '3.5278']));
  if (!outcome.ok) throw new Error(outcome.issues[0]!.message);
  const { tried, best } = outcome.value;
  const ways = (left: number[], seats: number): number[][] =>
    seats === 0
      ? [[]]
      : left.flatMap((j) =>
          ways(
            left.filter((k) => k !== j),
            seats - 1,
          ).map((rest) => [j, ...rest]),
        );
  const sums = ways([0, 1, 2, 3, 4], 4)
    .filter((way) => way.every((j, i) => tried[i]![j]!.status !== 'out'))
    .map((way) => way.reduce((sum, j, i) => sum + tried[i]![j]!.deviation ** 2, 0));
  expect(best.deviation ** 2 * 4).toBeCloseTo(Math.min(...sums), 18);
});

it('the worst pair can be made as good as can be instead', () => {
  const bench = shop(['3.5280', '3.5278', '3.5281', '3.5283'], ['3.5300', '3.5300', '3.5301', '3.5303']);
  const sum = found(bench);
  const worst = found(bench, { objective: 'worst' });
  expect(sum.ok && worst.ok && worst.value.best.worst).toBeLessThanOrEqual(sum.ok ? sum.value.best.worst : 0);
});

it('says what is not measured, what is not there, and that a block cannot change places', () => {
  const codes = (outcome: ReturnType<typeof found>) =>
    outcome.ok ? [] : outcome.issues.map(({ code }) => code);
  const bench = shop(BACK.slice(0, 3));
  expect(codes(found(bench))).toEqual(['matching/too-few']);
  expect(codes(found(bench, { parts: ['p9'] }))).toEqual(['matching/part-unknown']);
  expect(codes(found(bench, { moves: 'block' }))).toEqual(['matching/nothing-moves']);
  expect(codes(jobMatching(bench.book(), { characteristic: 'bore' }, CATALOGUE))).toEqual([
    'matching/nothing-moves',
  ]);
  bench.desk.write('part-entered', { part: 'p4', name: 'P4', condition: 'new' });
  expect(codes(found(bench, { parts: ['p1', 'p2', 'p3', 'p4'] }))).toEqual(['matching/not-measured']);
});

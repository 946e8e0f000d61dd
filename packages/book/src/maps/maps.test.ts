import { CATALOGUE, inUnit } from '@fettle/core';
import { expect, it } from 'vitest';
import { assessment } from '../assess/assessment.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { cardBlock, mapBlock, stripWords } from '../words/maps.ts';
import { jobCards } from './job-cards.ts';
import { jobMaps } from './job-maps.ts';

const eight = ['1', '2', '3', '4', '5', '6', '7', '8'];
const sheetOf = (cylinders: readonly string[]) => ({
  axes: {
    cylinder: [...cylinders],
    axis: ['thrust', 'axial'],
    height: ['top', 'bottom'],
    point: ['1', '2', '3'],
  },
  positions: [{ id: 'block', name: 'Block' }],
  characteristics: [
    // The axes in another order than they are drawn: which goes where is told by their names.
    inches('bore', {
      position: 'block',
      places: ['cylinder', 'axis', 'height'],
      limits: { new: { lower: '3.5000 in', upper: '3.5010 in' } },
    }),
    inches('groove', {
      position: 'block',
      places: ['point'],
      reduce: { by: 'worst', over: ['point'] },
      limits: { new: { upper: '0.0010 in' } },
    }),
  ],
});
const drawn = (bench: Bench) => {
  const { judgements } = assessment(bench.book(), asFittedNow(bench.book()), CATALOGUE);
  return { maps: jobMaps(bench.book(), judgements), cards: jobCards(bench.book(), judgements) };
};

const measured = (cylinders: readonly string[]): Bench => {
  const bench = new Bench(sheetOf(cylinders));
  bench.part('block', 'block');
  const read = (characteristic: string, at: string, value: string) =>
    bench.read(characteristic, { value, instrument: 'leaves' } as never, { at });
  read('bore', '1/thrust/top', '3.5045 in');
  read('bore', '1/axial/top', '3.5025 in');
  read('bore', '1/thrust/bottom', '3.5015 in');
  read('groove', '1', '0.0010 in');
  read('groove', '2', '0.0020 in');
  read('groove', '3', '0.0030 in');
  return bench;
};

it('a bore unrolled has its heights down and its directions across, whatever their order on the sheet', () => {
  const [map] = drawn(measured(eight)).maps;
  expect(map).toMatchObject({ strip: 'cylinder', row: 'height', column: 'axis', measured: 3, places: 32 });
  expect(map!.strips).toHaveLength(8);
  expect(map!.strips[0]!.cells.flat().map(({ operand }) => operand !== undefined)).toEqual([
    true,
    true,
    true,
    false,
  ]);
  expect(map!.strips[1]!.cells.flat().every(({ operand }) => operand === undefined)).toBe(true);
});

it('taper and out of round are differences of sizes and name their two places', () => {
  const [map] = drawn(measured(['1'])).maps;
  const { taper, outOfRound } = map!.strips[0]!;
  // 3.5045 - 3.5015 along the thrust side; 3.5045 - 3.5025 at the top.
  expect(inUnit(taper!.value, 'in')).toBeCloseTo(0.003, 9);
  expect(inUnit(outOfRound!.value, 'in')).toBeCloseTo(0.002, 9);
  expect(stripWords(map!, map!.strips[0]!)).toBe(
    'taper 0.0030 in (top less bottom, thrust); out of round 0.0020 in (thrust less axial, top)',
  );
  // 3.5045 less the middle of 3.5000 and 3.5010.
  expect(inUnit(map!.farthest!.off!, 'in')).toBeCloseTo(0.004, 9);
  expect(mapBlock(map!).table!.rows[1]!.at(-1)).toBe('[ ]');
  expect(mapBlock(map!).lines.join(' ')).toContain('cylinder 1, thrust, top');
  expect(mapBlock(map!).notes.join(' ')).toContain('three lobes');
});

it('what one height alone was read at has no taper', () => {
  const bench = new Bench(sheetOf(['1']));
  bench.part('block', 'block');
  bench.read('bore', { value: '3.5045 in', instrument: 'leaves' } as never, { at: '1/thrust/top' });
  const [map] = drawn(bench).maps;
  expect(map!.strips[0]!.taper).toBeUndefined();
  expect(map!.strips[0]!.outOfRound).toBeUndefined();
});

it('a groove leaks as its mean cube', () => {
  const { cards } = drawn(measured(['1']));
  const [column] = cards.find(({ axis }) => axis === 'point')!.columns;
  expect(inUnit(column!.mean!, 'in')).toBeCloseTo(0.002, 9);
  // (1 + 8 + 27)/3 = 12, and the cube root of 12 is 2.289428.
  expect(inUnit(column!.meanCube!, 'in')).toBeCloseTo(0.002289428, 8);
  expect(cardBlock(cards.find(({ axis }) => axis === 'point')!).lines[0]).toContain('worst at point 3');
});

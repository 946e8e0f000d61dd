import { CATALOGUE, inUnit } from '@fettle/core';
import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { stackBlock } from '../words/stack.ts';
import { jobStack, stacksOf } from './job-stack.ts';

const both = (lower: string, upper: string) => ({ new: { lower: `${lower} in`, upper: `${upper} in` } });

/** Housing, wall and journal of the invented Linnet; a squish that rests on a deck that rests on three more. */
const BEARING = {
  axes: { main: ['1', '2'], end: ['front', 'rear'] },
  positions: [
    { id: 'block', name: 'Block' },
    { id: 'crank', name: 'Crank' },
    { id: 'shells-{main}', name: 'Shells', places: ['main'] },
  ],
  characteristics: [
    inches('housing', { position: 'block', places: ['main'], limits: both('2.6915', '2.6920') }),
    inches('wall', {
      position: 'shells-{main}',
      places: ['main'],
      limits: both('0.0949', '0.0951'),
      sizes: [{ name: '.010 under', shift: '0.005 in', obtainable: true }],
    }),
    inches('journal', {
      position: 'crank',
      places: ['main', 'end'],
      reduce: { by: 'worst', over: ['end'] },
      limits: { ...both('2.4990', '2.5000'), wear: { lower: '2.4980 in' } },
      sizes: [{ name: '.010 under', shift: '-0.010 in', obtainable: true }],
    }),
    inches('clearance', {
      position: 'crank',
      mates: ['shells-{main}', 'block'],
      places: ['main', 'end'],
      reduce: { by: 'worst', over: ['end'] },
      relation: {
        linear: {
          terms: [
            { factor: 1, of: 'housing' },
            { factor: -2, of: 'wall' },
            { factor: -1, of: 'journal' },
          ],
        },
      },
      limits: { ...both('0.0015', '0.0030'), wear: { lower: '0.0015 in', upper: '0.0040 in' } },
      decimals: 4,
    }),
    inches('taper', {
      position: 'crank',
      places: ['main'],
      relation: { reduce: { by: 'range', over: ['end'], of: 'journal' } },
      limits: { new: { upper: '0.0005 in' } },
    }),
    inches('bare'),
    inches('no-drawing', {
      relation: {
        linear: {
          terms: [
            { factor: 1, of: 'bare' },
            { factor: 1, of: { characteristic: 'housing', at: { main: '1' } } },
          ],
        },
      },
    }),
  ],
};

const thou = (si: number) => inUnit(si, 'thou');
const stacked = (bench: Bench, asked: Partial<Parameters<typeof jobStack>[1]> = {}) => {
  const found = jobStack(bench.book(), { characteristic: 'clearance', ...asked }, CATALOGUE);
  if (!found.ok) throw new Error(found.issues[0]!.message);
  return found.value;
};

it('housing 2.6915 to 2.6920, walls .0949 to .0951 and a journal of 2.4990 to 2.5000 leave .0013 to .0032 by worst case', () => {
  const { stack, leaves, outside, set } = stacked(new Bench(BEARING));
  // Least 2.6915 − .1902 − 2.5000 = .0013; most 2.6920 − .1898 − 2.4990 = .0032.
  expect(thou(stack.worst.least)).toBeCloseTo(1.3, 6);
  expect(thou(stack.worst.greatest)).toBeCloseTo(3.2, 6);
  // √(.25² + .2² + .5²) = .5937 thou.
  expect(thou(stack.rootSumSquare)).toBeCloseTo(Math.sqrt(0.25 ** 2 + 0.2 ** 2 + 0.5 ** 2), 6);
  expect(leaves.map(({ characteristic }) => characteristic.id)).toEqual(['housing', 'wall', 'journal']);
  expect(set).toBe('new');
  expect(outside).toBeGreaterThan(0.005);
  expect(outside).toBeLessThan(0.03);
});

it('the journal is to be tightened first: it holds .25 of .3525 parts of the variance', () => {
  const { stack, tighten, outside } = stacked(new Bench(BEARING));
  expect(tighten.leaf.characteristic.id).toBe('journal');
  expect(stack.effects[2]!.share).toBeCloseTo(0.25 / 0.3525, 6);
  // Halved, √(.25² + .2² + .25²).
  expect(thou(tighten.rootSumSquare)).toBeCloseTo(Math.sqrt(0.25 ** 2 + 0.2 ** 2 + 0.25 ** 2), 6);
  expect(tighten.outside!).toBeLessThan(outside!);
});

it('at .010 under shell and journal move together and leave the same clearance', () => {
  const { stack } = stacked(new Bench(BEARING), { size: '.010 under' });
  expect(thou(stack.worst.least)).toBeCloseTo(1.3, 6);
  expect(thou(stack.worst.greatest)).toBeCloseTo(3.2, 6);
});

it('one feature is drawn once: front and rear of a journal are one term by the drawing, so a taper has none', () => {
  const taper = stacked(new Bench(BEARING), { characteristic: 'taper' });
  expect(taper.leaves).toHaveLength(1);
  expect(taper.stack.worst).toEqual({ least: 0, greatest: 0 });
});

it('as measured it takes readings where there are any, limits where not, and judges by wear', () => {
  const bench = new Bench(BEARING);
  bench.part('crank', 'crank');
  bench.part('block', 'block');
  bench.part('shells', 'shells-1');
  bench.read('journal', '2.4982 in', { at: '1/front', instrument: 'mic' });
  bench.read('journal', '2.4981 in', { at: '1/rear', instrument: 'mic' });
  const { leaves, stack, set } = stacked(bench, { by: 'measured', place: { main: '1', end: 'rear' } });
  expect(leaves.map(({ from }) => from)).toEqual(['drawing', 'drawing', 'readings']);
  // Middle 2.69175 − .1900 − 2.4981 = .00365.
  expect(thou(stack.value)).toBeCloseTo(3.65, 6);
  expect(set).toBe('wear');
});

it('says what has neither readings nor both limits', () => {
  const found = jobStack(new Bench(BEARING).book(), { characteristic: 'no-drawing' }, CATALOGUE);
  expect(found.ok ? '' : found.issues[0]?.code).toBe('stack/lacking');
  const direct = jobStack(new Bench(BEARING).book(), { characteristic: 'housing' }, CATALOGUE);
  expect(direct.ok ? '' : direct.issues[0]?.code).toBe('stack/no-relation');
  const nowhere = jobStack(
    new Bench(BEARING).book(),
    { characteristic: 'clearance', place: { main: '9' } },
    CATALOGUE,
  );
  expect(nowhere.ok ? '' : nowhere.issues[0]?.code).toBe('stack/unknown-place');
});

it('lists what stacks up, and not what compares sizes of one kind', () => {
  expect(stacksOf(new Bench(BEARING).book(), CATALOGUE)).toEqual([
    expect.objectContaining({ by: ['drawing'], terms: 3 }),
  ]);
});

it('in words: worst case, chance outside and what to tighten', () => {
  const { lines, table, notes } = stackBlock(new Bench(BEARING).book(), stacked(new Bench(BEARING)));
  expect(lines[0]).toMatch(/^Middle 0\.002[23] in\. Worst case 0\.0013 to 0\.0032 in;/);
  expect(lines[1]).toMatch(
    /^Limits for new parts 0\.0015 to 0\.0030 in: outside in 1\.\d %; the worst case is outside\.$/,
  );
  expect(lines[2]).toMatch(/^To tighten first: journal 1\. Half its tolerance takes/);
  expect(table!.rows[0]).toEqual([
    'journal 1',
    '71 %',
    '±0.0005 in',
    '2.4990 to 2.5000 in',
    'limits for new',
  ]);
  expect(notes[0]).toBe('housing − 2 × wall − journal.');
});

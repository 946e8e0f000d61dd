import { standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import type { Judgement } from './judgement.ts';
import { asFound, onTrial } from './selection.ts';

const THOU = 25.4e-6;

/** A shaft in two shells. */
const SHAFT = {
  axes: { main: ['1', '2'], end: ['front', 'rear'], turn: ['0', '90'] },
  positions: [
    { id: 'crank', name: 'Crank' },
    { id: 'shell-{main}', name: 'Shell', places: ['main'] },
  ],
  characteristics: [
    inches('journal', {
      position: 'crank',
      places: ['main', 'end', 'turn'],
      reduce: { by: 'worst', over: ['end', 'turn'] },
      limits: {
        new: { lower: '2.4990 in', upper: '2.5000 in' },
        wear: { lower: '2.4980 in', upper: '2.5000 in' },
      },
      sizes: [{ name: '.010 under', shift: '-0.010 in', obtainable: true }],
    }),
    inches('taper', {
      position: 'crank',
      places: ['main', 'turn'],
      reduce: { by: 'worst', over: ['turn'] },
      relation: { reduce: { by: 'range', over: ['end'], of: 'journal' } },
      limits: { new: { upper: '0.0005 in' } },
    }),
    inches('shell', { position: 'shell-{main}', places: ['main'] }),
    inches('clearance', {
      position: 'crank',
      mates: ['shell-{main}'],
      places: ['main', 'end', 'turn'],
      reduce: { by: 'worst', over: ['end', 'turn'] },
      relation: lessOf('shell', 'journal'),
      limits: {
        new: { lower: '0.0015 in', upper: '0.0030 in' },
        wear: { lower: '0.0015 in', upper: '0.0040 in' },
      },
    }),
  ],
};

const PLACES = ['front/0', 'front/90', 'rear/0', 'rear/90'];
/** Reads journal 1 at its four places. */
function journal(bench: Bench, sizes: readonly string[], main = '1'): void {
  for (const [i, size] of sizes.entries())
    bench.read('journal', `${size} in`, { at: `${main}/${PLACES[i]}`, instrument: 'mic' });
}
const value = ({ operand }: Pick<Judgement, 'operand'>): number =>
  operand.kind === 'value' ? operand.q.value / THOU : Number.NaN;
const doubt = ({ operand }: Pick<Judgement, 'operand'>): number =>
  operand.kind === 'value' ? standardUncertainty(operand.q) / THOU : Number.NaN;
const codes = ({ cautions }: Judgement): string[] => cautions.map(({ code }) => code);

describe('the two limit sets', () => {
  it('are both shown; a reused part is judged by wear, with a caution when it is not good as new', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4985', '2.4985', '2.4985', '2.4985']);
    const judged = bench.judgement('journal', '1');
    expect(judged).toMatchObject({ status: 'in', governing: 'wear' });
    expect(judged.verdicts).toMatchObject({ new: { verdict: 'out' }, wear: { verdict: 'in' } });
    expect(codes(judged)).toEqual(['verdict/worn-within-wear']);
  });

  it('judge a new part by the limits for new parts, and have no caution when it is good as new', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank', 'new');
    journal(bench, ['2.4985', '2.4985', '2.4985', '2.4985']);
    expect(bench.judgement('journal', '1')).toMatchObject({ status: 'out', governing: 'new' });
    journal(bench, ['2.4995', '2.4995', '2.4995', '2.4995'], '2');
    expect(bench.judgement('journal', '2')).toMatchObject({ status: 'in', governing: 'new', cautions: [] });
  });

  it('move with the size a part was machined to', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4970', '2.4970', '2.4970', '2.4970']);
    bench.desk.write('part-reworked', {
      part: 'crank',
      what: 'ground',
      condition: 'machined',
      size: '.010 under',
    });
    journal(bench, ['2.4896', '2.4896', '2.4896', '2.4896']);
    const now = bench.judgement('journal', '1');
    expect(now).toMatchObject({ status: 'in', governing: 'new' });
    expect(now.verdicts.new!.limits.upper! / THOU).toBeCloseTo(2490, 6);
  });

  it('serve all parts when there is only one of them', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4992', '2.4990', '2.4991', '2.4990']);
    expect(bench.judgement('taper', '1')).toMatchObject({ status: 'in', governing: 'new' });
  });

  it('judge mixed states by wear: a new shell on a used journal, also when the clearance is read directly', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    bench.part('shell', 'shell-1', 'new');
    bench.part('shell-b', 'shell-2', 'new');
    journal(bench, ['2.4985', '2.4985', '2.4985', '2.4985']);
    bench.read('shell', '2.5020 in', { at: '1', instrument: 'dbg' });
    expect(bench.judgement('clearance', '1')).toMatchObject({ governing: 'wear', status: 'in' });
    const direct = bench.read('clearance', '0.0035 in', { at: '2', instrument: 'dbg' });
    expect(direct.body.mates).toHaveLength(1);
    expect(bench.judgement('clearance', '2')).toMatchObject({ governing: 'wear', status: 'in' });
  });

  it('move by the size of the part itself, not by that of the part it is read against', () => {
    const bench = new Bench({
      positions: [
        { id: 'pin', name: 'Pin' },
        { id: 'rod', name: 'Rod' },
      ],
      characteristics: [
        inches('pin', {
          position: 'pin',
          mates: ['rod'],
          limits: { wear: { upper: '1.000 in' } },
          sizes: [{ name: 'over', shift: '0.1 in', obtainable: true }],
        }),
      ],
    });
    bench.part('rod', 'rod', 'machined', 'over');
    bench.part('pin', 'pin', 'new');
    bench.read('pin', '1.05 in', { instrument: 'mic' });
    expect(bench.judgement('pin')).toMatchObject({ status: 'out' });
  });
});

describe('what is judged of several places', () => {
  it('is the worst: one place out is out, whatever the mean says, and the mean is shown beside it', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4987', '2.4986', '2.4978', '2.4977']);
    const judged = bench.judgement('journal', '1');
    expect(judged).toMatchObject({ status: 'out', worstAt: { main: '1', end: 'rear', turn: '90' } });
    // Mean 2.4982, u = √(½ + ⅛) × 0.1 thou = 0.079: 2.5 u above the limit, which alone would be in.
    expect(judged.mean?.verdict).toBe('in');
    expect(value(judged.mean!)).toBeCloseTo(2498.2, 6);
    expect(doubt(judged.mean!)).toBeCloseTo(Math.sqrt(0.5 + 0.5 / 4) * 0.1, 6);
  });

  it('is out with one place out, and otherwise missing until every place is read', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4990']);
    const judged = bench.judgement('journal', '1');
    expect(judged.status).toBe('missing');
    expect(judged.missing).toHaveLength(3);
    bench.read('journal', '2.4970 in', { at: '1/rear/90', instrument: 'mic' });
    expect(bench.judgement('journal', '1').status).toBe('out');
  });

  it('holds for every place a reading leaves open', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    bench.read('journal', '2.4990 in', { at: '1', instrument: 'mic' });
    expect(bench.judgement('journal', '1')).toMatchObject({ status: 'in', missing: [] });
    expect(bench.judgement('journal', '2').status).toBe('missing');
    bench.read('journal', '2.4990 in', { instrument: 'mic' });
    expect(bench.judgement('journal', '2').status).toBe('in');
  });

  it('is the mean where the sheet says so', () => {
    const bench = new Bench({
      axes: { end: ['front', 'rear'] },
      characteristics: [
        inches('wall', {
          places: ['end'],
          reduce: { by: 'mean', over: ['end'] },
          limits: { wear: { upper: '0.5 in' } },
        }),
      ],
    });
    bench.read('wall', '0.52 in', { at: 'front', instrument: 'mic' });
    expect(bench.judgement('wall').status).toBe('missing');
    bench.read('wall', '0.46 in', { at: 'rear', instrument: 'mic' });
    expect(bench.judgement('wall').status).toBe('in');
    expect(value(bench.judgement('wall'))).toBeCloseTo(490, 6);
  });
});

describe('doubt that readings share', () => {
  it('cancels in a taper: of a micrometer half the variance is common, so two own halves are left', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4997', '2.4996', '2.4988', '2.4987']);
    const judged = bench.judgement('taper', '1');
    expect(value(judged)).toBeCloseTo(0.9, 6);
    expect(doubt(judged)).toBeCloseTo(Math.sqrt(2 * 0.5) * 0.1, 6);
    expect(judged.status).toBe('out');
  });

  it('adds in a stack', () => {
    const bench = new Bench({
      characteristics: [
        inches('shim-a'),
        inches('shim-b'),
        inches('stack', {
          relation: {
            linear: {
              terms: [
                { factor: 1, of: 'shim-a' },
                { factor: 1, of: 'shim-b' },
              ],
              constant: '0.1 in',
            },
          },
        }),
      ],
    });
    bench.read('shim-a', '0.2 in', { instrument: 'mic' });
    bench.read('shim-b', '0.3 in', { instrument: 'mic' });
    const judged = bench.judgement('stack');
    expect(value(judged)).toBeCloseTo(600, 6);
    // (2 c)² + 2 o² with c² = o² = ½ 0.1².
    expect(doubt(judged)).toBeCloseTo(Math.sqrt(6 * 0.5) * 0.1, 6);
    expect(judged.status).toBe('no-limits');
  });

  it('stays when a reading is repeated; only each reading’s own share averages out', () => {
    const bench = new Bench({ characteristics: [inches('shim')] });
    for (const size of ['0.2000', '0.2001', '0.2002', '0.2001'])
      bench.read('shim', `${size} in`, { instrument: 'mic' });
    const judged = bench.judgement('shim');
    expect(value(judged)).toBeCloseTo(200.1, 6);
    expect(doubt(judged)).toBeCloseTo(Math.sqrt(0.5 + 0.5 / 4) * 0.1, 6);
  });

  it('is a share of the reading where the instrument says so', () => {
    const bench = new Bench({
      characteristics: [{ ...inches('load'), kind: 'force', unit: 'lbf' }],
    });
    bench.read('load', '8 lbf', { instrument: 'tester' });
    const { operand } = bench.judgement('load');
    // 3 % of 8 lbf is 0.24 lbf at k = 2; 1 lbf = 4.4482216 N.
    expect(operand.kind === 'value' && standardUncertainty(operand.q)).toBeCloseTo(0.12 * 4.4482216, 6);
  });
});

describe('readings of one thing', () => {
  it('are pooled within a state only: earlier states stay as history, and as found can still be asked for', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    journal(bench, ['2.4970', '2.4970', '2.4970', '2.4970']);
    bench.desk.write('part-reworked', {
      part: 'crank',
      what: 'ground',
      condition: 'machined',
      size: '.010 under',
    });
    expect(bench.judgement('journal', '1').status).toBe('missing');
    journal(bench, ['2.4896', '2.4896', '2.4896', '2.4896']);
    expect(value(bench.judgement('journal', '1'))).toBeCloseTo(2489.6, 6);
    const then = bench.judgement('journal', '1', asFound);
    expect(value(then)).toBeCloseTo(2497, 6);
    expect(then.status).toBe('out');
  });

  it('do not count once the part they were read against is out', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    bench.part('shell', 'shell-1');
    bench.read('clearance', '0.0025 in', { at: '1', instrument: 'dbg' });
    expect(bench.judgement('clearance', '1').status).toBe('in');
    bench.desk.write('part-fitted', { position: 'shell-1', part: null });
    expect(bench.judgement('clearance', '1').status).toBe('missing');
    bench.part('other', 'shell-1');
    expect(bench.judgement('clearance', '1').status).toBe('missing');
    bench.desk.write('part-fitted', { position: 'shell-1', part: 'shell' });
    expect(bench.judgement('clearance', '1').status).toBe('in');
  });

  it('take the parts of a trial instead of those fitted', () => {
    const bench = new Bench(SHAFT);
    bench.part('crank', 'crank');
    bench.part('thick', 'shell-2');
    bench.part('thin', 'shell-1');
    journal(bench, ['2.4990', '2.4990', '2.4990', '2.4990']);
    bench.read('shell', '2.5020 in', { at: '1', part: 'thin', instrument: 'dbg' });
    bench.read('shell', '2.5040 in', { at: '1', part: 'thick', instrument: 'dbg' });
    expect(value(bench.judgement('clearance', '1'))).toBeCloseTo(3, 6);
    expect(
      value(bench.judgement('clearance', '1', (book) => onTrial(book, { 'shell-1': 'thick' }))),
    ).toBeCloseTo(5, 6);
  });

  it('that cannot be read are not taken for zero', () => {
    const bench = new Bench(SHAFT);
    const state = bench.part('crank', 'crank').id;
    bench.desk.write('reading', { characteristic: 'journal', state, instrument: 'mic', value: '20 psi' });
    const judged = bench.judgement('journal', '1');
    expect(judged).toMatchObject({ status: 'missing', operand: { kind: 'missing' } });
    expect(judged.next).toMatchObject({ move: 'measure' });
    expect(judged.missing).toHaveLength(4);
  });
});

describe('what is looked at', () => {
  const SEEN = { characteristics: [{ ...inches('rail'), kind: 'seen', unit: undefined, wanted: 'flat' }] };
  it('is in or out by what was seen last, and missing until it was', () => {
    const bench = new Bench(JSON.parse(JSON.stringify(SEEN)));
    expect(bench.judgement('rail')).toMatchObject({
      status: 'missing',
      next: { move: 'look', wanted: 'flat' },
    });
    bench.desk.write('seen', { characteristic: 'rail', found: 'dimpled', as_wanted: false });
    expect(bench.judgement('rail').status).toBe('out');
    bench.desk.write('seen', { characteristic: 'rail', found: 'hammered flat', as_wanted: true });
    expect(bench.judgement('rail').status).toBe('in');
  });
});

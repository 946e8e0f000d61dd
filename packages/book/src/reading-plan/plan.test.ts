import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { leftWords, minutesWords, planRuns, planSum } from '../words/reading-plan.ts';
import { readingPlan } from './plan.ts';

const limits = { limits: { wear: { upper: '1.0050 in' } } };
const plan = (bench: Bench) => readingPlan(bench.book(), bench.assessed());

describe('the plan of the day', () => {
  it('begins with what holds the cover that is dearest to open again', () => {
    const bench = new Bench({
      characteristics: [
        inches('easy', { ...limits, with: 'micrometer' }),
        inches('buried', { ...limits, with: 'micrometer' }),
      ],
      covers: [
        {
          id: 'pan',
          name: 'Pan',
          order: 1,
          reopen_hours: 9,
          hides: { characteristics: ['buried'], fasteners: [] },
        },
      ],
    });
    const { steps } = plan(bench);
    expect(steps.map(({ characteristic }) => characteristic.id)).toEqual(['buried', 'easy']);
    // Set up 3, over to it 2, read 1; then over to the other 2, and 1.
    expect(steps.map(({ at }) => at)).toEqual([6, 9]);
    expect(steps[0]).toMatchObject({ setUp: 5, with: 'micrometer', instrument: 'mic', why: 'unread' });
  });

  it('reads with one instrument what it reads, before the next is got out', () => {
    const of = (id: string, type: string) => inches(id, { ...limits, with: type });
    const bench = new Bench({
      characteristics: [
        of('a', 'dial bore gauge'),
        of('b', 'depth micrometer'),
        of('c', 'dial bore gauge'),
        of('d', 'depth micrometer'),
      ],
    });
    expect(plan(bench).steps.map(({ characteristic }) => characteristic.id)).toEqual(['b', 'd', 'a', 'c']);
  });

  it('takes up what cannot be told with the owned instrument that could decide it', () => {
    const bench = new Bench({ characteristics: [inches('hole', { ...limits, with: 'telescoping gauge' })] });
    bench.read('hole', '1.0047 in', { instrument: 'tele' });
    const { steps } = plan(bench);
    expect(steps).toMatchObject([{ characteristic: { id: 'hole' }, instrument: 'dbg', why: 'undecided' }]);
    expect(steps[0]!.decides[0]!.chance).toBeGreaterThan(0.5);
  });

  it('skips what does not matter and what nothing owned decides, and says so', () => {
    const bench = new Bench({
      axes: { main: ['1', '2'] },
      positions: [{ id: 'crank', name: 'Crank' }],
      characteristics: [
        inches('journal', { position: 'crank', places: ['main'], limits: { wear: { lower: '2.4980 in' } } }),
        inches('on-it', { limits: { wear: { upper: '1.0000 in' } } }),
      ],
    });
    bench.part('crank', 'crank');
    bench.read('journal', '2.4981 in', { at: '1', instrument: 'mic' });
    bench.read('journal', '2.4970 in', { at: '2', instrument: 'mic' });
    bench.read('on-it', '1.0000 in', { instrument: 'depth' });
    const found = plan(bench);
    expect(found.steps).toEqual([]);
    expect(found.left.map(({ why }) => why)).toEqual(['does-not-matter', 'nothing-owned-decides']);
    expect(leftWords(found.left)[0]).toBe(
      'Skipped, since it does not matter (the same part is out elsewhere): journal 1.',
    );
    expect(planSum(found)).toBe('Nothing is left to read that could decide anything.');
  });

  it('says what is done in the minutes there are, and what it decides', () => {
    const bench = new Bench({
      characteristics: ['a', 'b', 'c'].map((id) => inches(id, { ...limits, with: 'micrometer' })),
    });
    const found = plan(bench);
    // 3 + 2 + 1, then 2 + 1, and 2 + 1.
    expect(planRuns(found, 10).map(({ what, at }) => [what, at])).toEqual([
      ['a', 6],
      ['b', 9],
    ]);
    expect(planSum(found, 10)).toBe(
      '2 readings in 9 min settle about 2 of 2 open verdicts; 1 more reading does not fit, 12 min in all.',
    );
    expect(planSum(found, 5)).toBe('Nothing can be decided in 5 min: the first reading is done after 6 min.');
    expect(minutesWords(65)).toBe('1 h 5 min');
  });

  it('is the same whenever it is asked', () => {
    const bench = new Bench({ characteristics: ['a', 'b'].map((id) => inches(id, limits)) });
    expect(plan(bench)).toEqual(plan(bench));
  });
});

describe('limits too close for the instrument', () => {
  const pin = (instruments: readonly { id: string; type: string; U: string }[]) => {
    const bench = new Bench({
      characteristics: [
        inches('pin', { limits: { wear: { lower: '0.8748 in', upper: '0.8750 in' } }, with: 'micrometer' }),
      ],
    });
    for (const { id, type, U } of instruments)
      bench.declare(id, type, { expanded: U, coverage: 2, common_share: 0.5 });
    return plan(bench);
  };

  it('take no minutes of the day and no invented chance: what would do is named', () => {
    // .0002 in apart with u .0001: even in the middle only 68 % lie between them.
    const { steps, left } = pin([]);
    expect(steps).toEqual([]);
    expect(left).toMatchObject([{ why: 'too-coarse', judgement: { characteristic: { id: 'pin' } } }]);
    // Half of all first readings decide where 3.29 u is half of .0002: U = 2 u = .00006 in.
    expect(left[0]!.coarse!.needed / 25.4e-6).toBeCloseTo((2 * 0.1) / 3.29, 6);
    expect(leftWords(left)[0]).toContain('too coarse');
  });

  it('are read with one owned that is fine enough', () => {
    const { steps, left } = pin([{ id: 'fine', type: 'micrometer', U: '0.00004 in' }]);
    expect(left).toEqual([]);
    expect(steps).toMatchObject([{ instrument: 'fine', with: 'micrometer' }]);
    // 1 − 3.29 × .00002 / .0002.
    expect(steps[0]!.decides[0]!.chance).toBeCloseTo(1 - 0.329, 6);
  });
});

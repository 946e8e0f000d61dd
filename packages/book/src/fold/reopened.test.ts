import { standardUncertainty } from '@fettle/core';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { Desk } from '../testing/desk.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { noticesOf } from '../words/notices.ts';
import { reopenedBy } from './reopened.ts';

const IN = 0.0254;

const SHAFT = {
  axes: { end: ['front', 'rear'] },
  positions: [
    { id: 'shaft', name: 'Shaft' },
    { id: 'bush', name: 'Bush' },
  ],
  covers: [
    {
      id: 'lid',
      name: 'Lid',
      order: 1,
      reopen_hours: 2,
      hides: { characteristics: ['journal', 'clearance'] },
    },
  ],
  characteristics: [
    inches('journal', {
      position: 'shaft',
      places: ['end'],
      reduce: { by: 'worst', over: ['end'] },
      limits: { wear: { lower: '0.9980 in' } },
    }),
    inches('bore', { position: 'bush' }),
    inches('clearance', {
      position: 'shaft',
      mates: ['bush'],
      places: ['end'],
      relation: lessOf('bore', 'journal'),
      limits: { wear: { upper: '0.0040 in' } },
    }),
  ],
};

/** Both ends of the shaft by micrometer, the bush by dial bore gauge: all well in. */
function measured() {
  const bench = new Bench(SHAFT);
  bench.part('shaft-1', 'shaft');
  bench.part('bush-1', 'bush');
  check(bench, true);
  const front = bench.read('journal', '0.9990 in', { at: 'front', instrument: 'mic' });
  const rear = bench.read('journal', '0.9989 in', { at: 'rear', instrument: 'mic' });
  bench.read('bore', '1.0010 in', { instrument: 'dbg' });
  return { bench, front, rear };
}

const check = (bench: Bench, good: boolean, instrument = 'mic') =>
  bench.desk.write('instrument-checked', {
    instrument,
    against: '1.0000 in',
    read: good ? '1.0000 in' : '1.0005 in',
    good,
  });
const statuses = (bench: Bench) => [
  bench.judgement('journal').status,
  bench.judgement('clearance', 'front').status,
];
const standings = (bench: Bench) => bench.book().readings.map(({ standing }) => standing);

describe('a failed check', () => {
  it('reopens what was read with the instrument since its last good one, and all that rests on it', () => {
    const { bench, front, rear } = measured();
    expect(statuses(bench)).toEqual(['in', 'in']);
    check(bench, false);
    expect(standings(bench)).toEqual(['to-be-taken-again', 'to-be-taken-again', 'counts']);
    expect(statuses(bench)).toEqual(['cannot-tell', 'cannot-tell']);
    const { cautions, next, operand, again } = bench.judgement('journal');
    expect(cautions.map(({ code }) => code)).toContain('verdict/to-be-taken-again');
    expect(operand.kind).toBe('value');
    expect(again).toEqual([front.id, rear.id]);
    // What to read again is named: both ends of the shaft, and not the bush.
    expect(next?.move === 'measure' && next.what.map(({ place }) => place.end)).toEqual(['front', 'rear']);
    expect(bench.gate('lid').reasons.map(({ message }) => message)).toContain(
      'journal: cannot tell, to be taken again',
    );
    expect(noticesOf(bench.book()).join('\n')).toMatch(/mic failed its check .*2 readings to be taken again/);
  });

  it('leaves what was read before the last good one', () => {
    const { bench } = measured();
    check(bench, true);
    check(bench, false);
    expect(statuses(bench)).toEqual(['in', 'in']);
  });

  it('is not healed by a later good one, but what is read after that counts', () => {
    const { bench } = measured();
    check(bench, false);
    bench.read('journal', '0.9991 in', { at: 'front', instrument: 'mic' });
    check(bench, true);
    expect(statuses(bench)).toEqual(['cannot-tell', 'cannot-tell']);
    bench.read('journal', '0.9985 in', { at: 'front', instrument: 'mic' });
    bench.read('journal', '0.9984 in', { at: 'rear', instrument: 'mic' });
    expect(statuses(bench)).toEqual(['in', 'in']);
    // The old figures stay in the book and are no part of the new one.
    const { operand } = bench.judgement('clearance', 'front');
    expect(operand.kind === 'value' && operand.q.value / IN).toBeCloseTo(0.0025, 9);
    expect(standings(bench).filter((one) => one === 'to-be-taken-again')).toHaveLength(3);
  });

  it('struck, gives back what it took', () => {
    const { bench } = measured();
    const failed = check(bench, false);
    bench.desk.strike(failed);
    expect(statuses(bench)).toEqual(['in', 'in']);
  });

  it('lets a place out of limits elsewhere stay out', () => {
    const bench = new Bench(SHAFT);
    bench.part('shaft-1', 'shaft');
    bench.read('journal', '0.9970 in', { at: 'front', instrument: 'mic' });
    check(bench, true);
    bench.read('journal', '0.9990 in', { at: 'rear', instrument: 'mic' });
    check(bench, false);
    expect(bench.judgement('journal').status).toBe('out');
  });

  it('takes with it what a gauge read that was set in the instrument', () => {
    const { bench } = measured();
    bench.desk.write('instrument-declared', {
      instrument: 'set',
      name: 'set',
      type: 'dial bore gauge',
      uncertainty: { expanded: '0.0002 in', coverage: 2, common_share: 0.5 },
      trust: 'stated',
      set_in: 'mic',
    });
    bench.read('bore', '1.0011 in', { instrument: 'set' });
    check(bench, false);
    expect(standings(bench)[3]).toBe('to-be-taken-again');
  });
});

describe('a correction its owner states', () => {
  it('is added, with its doubt, and the readings decide again', () => {
    const { bench } = measured();
    const failed = check(bench, false);
    const correction = bench.desk.write('readings-corrected', {
      check: failed.id,
      add: '-0.0005 in',
      doubt: '0.0004 in',
      why: 'the anvil had a burr: it read five tenths large on the block',
    });
    expect(statuses(bench)).toEqual(['in', 'in']);
    const { operand } = bench.judgement('journal');
    expect(operand.kind).toBe('value');
    if (operand.kind !== 'value') return;
    expect(operand.q.value / IN).toBeCloseTo(0.9984, 9);
    // .0002/2 of the micrometer and .0004/2 of the correction: √(1 + 4) × .0001.
    expect(standardUncertainty(operand.q) / IN).toBeCloseTo(Math.sqrt(5) * 1e-4, 9);
    bench.desk.strike(correction);
    expect(statuses(bench)).toEqual(['cannot-tell', 'cannot-tell']);
  });

  it('that is no quantity of the kind leaves the readings without a verdict', () => {
    const { bench } = measured();
    const failed = check(bench, false);
    bench.desk.write('readings-corrected', { check: failed.id, add: '3 psi', doubt: '1 psi', why: 'a slip' });
    expect(statuses(bench)).toEqual(['missing', 'missing']);
  });
});

describe('a gauge set in the micrometer that measures the other part', () => {
  const clearance = (setIn: string | undefined, U: string) => {
    const { bench } = measured();
    bench.desk.write('instrument-declared', {
      instrument: 'set',
      name: 'set',
      type: 'dial bore gauge',
      uncertainty: { expanded: U, coverage: 2, common_share: 0.5 },
      trust: 'stated',
      ...(setIn !== undefined && { set_in: setIn }),
    });
    bench.desk.strike(bench.book().readings[2]!.entry);
    bench.read('bore', '1.0010 in', { instrument: 'set' });
    const { operand } = bench.judgement('clearance', 'front');
    if (operand.kind !== 'value') throw new Error('no clearance');
    return standardUncertainty(operand.q) / IN;
  };

  it('shares its error, which cancels in the clearance: .0002 of each leave .0002, not .00028', () => {
    // Each has u = .0001, half of the variance common: 1e-8 + 1e-8 − 2 × .5e-8 = 1e-8.
    expect(clearance('mic', '0.0002 in')).toBeCloseTo(1e-4, 9);
    expect(clearance(undefined, '0.0002 in')).toBeCloseTo(Math.SQRT2 * 1e-4, 9);
  });

  it('keeps its own doubt, however coarse it is', () => {
    // u = .00035: 12.25e-8 + 1e-8 − 2 × .5e-8.
    expect(clearance('mic', '0.0007 in')).toBeCloseTo(Math.sqrt(12.25e-8), 9);
    // Finer than what it was set in: it can lend no more than it has.
    expect(clearance('mic', '0.00001 in')).toBeGreaterThan(0.00006);
  });

  it('set in what is not declared, it stands alone', () => {
    expect(clearance('nothing', '0.0002 in')).toBeCloseTo(Math.SQRT2 * 1e-4, 9);
  });
});

it('what was built on a study goes with it when it is struck, and what was declared before stands again', () => {
  const { bench } = measured();
  const study = bench.desk.write('repeat-study', {
    instrument: 'mic',
    what: 'one journal',
    readings: [{ value: '0.9990 in' }, { value: '0.9991 in' }],
  });
  bench.desk.write('instrument-declared', {
    instrument: 'mic',
    name: 'mic',
    type: 'micrometer',
    uncertainty: { expanded: '0.0003 in', coverage: 2, common_share: 0.2, own_dof: 1 },
    trust: 'built',
    study: study.id,
  });
  const U = () => bench.book().instruments.get('mic')?.body.uncertainty.expanded;
  expect(U()).toBe('0.0003 in');
  const { operand } = bench.judgement('journal');
  expect(operand.kind === 'value' && operand.q.terms.map(({ dof }) => dof)).toEqual([
    Number.POSITIVE_INFINITY,
    1,
  ]);
  bench.desk.strike(study);
  expect(U()).toBe('0.0002 in');
});

it('reopens what its rule says, read by read, whatever the order of checks and readings', () => {
  const step = fc.constantFrom('read', 'read', 'good', 'failed');
  fc.assert(
    fc.property(fc.array(step, { maxLength: 20 }), (steps) => {
      const desk = new Desk('bench');
      const entries = steps.map((one) =>
        one === 'read'
          ? desk.write('reading', { characteristic: 'journal', instrument: 'mic', value: '1 in' })
          : desk.write('instrument-checked', {
              instrument: 'mic',
              against: '1 in',
              read: '1 in',
              good: one === 'good',
            }),
      );
      const reopened = reopenedBy(desk.entries, new Map());
      steps.forEach((one, i) => {
        if (one !== 'read') return;
        const checks = (from: number, to: number) =>
          steps.slice(from, to).filter((other) => other !== 'read');
        const failedAfter = checks(i + 1, steps.length)[0] === 'failed';
        const failedBefore = checks(0, i).at(-1) === 'failed';
        expect(reopened.has(entries[i]!.id)).toBe(failedAfter || failedBefore);
      });
    }),
  );
});

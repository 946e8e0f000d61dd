import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { checkStateWords, checkWords } from '../words/chest.ts';
import { admittedCheck, admittedCorrection, checkState } from './check.ts';

const bench = () => new Bench({ characteristics: [inches('size')] });
const codes = (outcome: { ok: boolean; issues?: readonly { code: string }[] }): string[] =>
  outcome.ok ? [] : (outcome.issues ?? []).map(({ code }) => code);

describe('a check', () => {
  const check = (read: string, more: object = {}) =>
    admittedCheck(bench().book(), { instrument: 'mic', against: '1.0000 in', read, ...more });

  it('is good within the instrument’s U and fails beyond it, by its own figures', () => {
    expect(check('1.0002 in')).toMatchObject({ ok: true, value: { good: true } });
    expect(check('0.9998 in')).toMatchObject({ ok: true, value: { good: true } });
    expect(check('1.0003 in')).toMatchObject({ ok: true, value: { good: false } });
    expect(check('25.4 mm')).toMatchObject({ ok: true, value: { good: true } });
    expect(check('1.0003 in', { limit: '0.0005 in' })).toMatchObject({ ok: true, value: { good: true } });
    expect(check('1.0000 in', { failed: true })).toMatchObject({ ok: true, value: { good: false } });
  });

  it('takes "zero" as a gauge closed on itself is checked', () => {
    const zero = (read: string) =>
      admittedCheck(bench().book(), { instrument: 'mic', against: 'zero', read });
    expect(zero('0.0006 in')).toMatchObject({ ok: true, value: { against: '0 in', good: false } });
    expect(zero('zero')).toMatchObject({ ok: true, value: { against: '0 in', read: '0 in', good: true } });
    // A share of the reading has no unit to lend.
    const tester = admittedCheck(bench().book(), { instrument: 'tester', against: 'zero', read: 'zero' });
    expect(codes(tester)).toEqual(['unit/unknown', 'unit/unknown']);
  });

  it('asks for what it lacks', () => {
    expect(codes(check('good'))).toEqual(['unit/unknown']);
    expect(codes(check('1 psi'))).toEqual(['unit/wrong-kind']);
    expect(codes(check('1 in', { limit: '3 psi' }))).toEqual(['check/no-limit']);
    const of = (instrument: string, against: string, read: string) =>
      codes(admittedCheck(bench().book(), { instrument, against, read }));
    expect(of('nobody', '1 in', '1 in')).toEqual(['instrument/unknown']);
    // A share of nothing is nothing: at zero a wrench or a spring tester needs its limit said.
    expect(of('tester', '0 lbf', '0.1 lbf')).toEqual(['check/no-limit']);
    expect(of('tester', '100 lbf', '102 lbf')).toEqual([]);
    expect(of('tester', '1 in', '')).toEqual(['unit/unknown']);
  });

  it('is told with its arithmetic, and what rests on the instrument since', () => {
    const of = bench();
    const state = () => checkStateWords(of.book(), checkState(of.book(), 'mic'));
    of.read('size', '1 in', { instrument: 'mic' });
    expect(state()).toBe('Not checked in this job, with 1 reading resting on it.');
    const body = admittedCheck(of.book(), {
      instrument: 'mic',
      against: '1 in',
      read: '1.0005 in',
      when: 'after',
    });
    if (!body.ok) throw new Error('no check');
    of.desk.write('instrument-checked', body.value);
    expect(state()).toBe(
      'Last check, after the readings, against 1 in it read 1.0005 in: 0.0005 in off, 0.0002 in allowed: failed. 1 reading to be taken again.',
    );
    of.desk.write('instrument-checked', { instrument: 'mic', against: '1 in', read: '1 in', good: true });
    of.read('size', '1.0001 in', { instrument: 'mic' });
    expect(state()).toMatch(/allowed: good\..* 1 reading since: check it again/);
    // Old books kept what was said: the figures beside it tell.
    of.desk.write('instrument-checked', { instrument: 'mic', against: '1 in', read: '1.001 in', good: true });
    expect(checkWords(of.book(), of.book().instrumentChecks.at(-1)!)).toContain('though off by more');
  });

  it('that failed may be answered by a correction, with its doubt and its reason', () => {
    const of = bench();
    of.read('size', '1 in', { instrument: 'mic' });
    const failed = of.desk.write('instrument-checked', {
      instrument: 'mic',
      against: '1 in',
      read: '1.0005 in',
      good: false,
    });
    const say = (more: object) => codes(admittedCorrection(of.book(), { check: failed.id, ...more }));
    expect(say({})).toEqual(['correction/unreadable', 'correction/unreadable', 'correction/no-reason']);
    expect(say({ add: '-0.0005 in', doubt: '0 in', why: 'burr' })).toEqual(['correction/unreadable']);
    expect(say({ add: '-0.0005 in', doubt: '0.0002 in', why: 'burr' })).toEqual([]);
    expect(codes(admittedCorrection(of.book(), { check: 'none' }))).toEqual(['correction/nothing-reopened']);
  });
});

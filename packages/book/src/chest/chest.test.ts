import { standardUncertainty } from '@fettle/core';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../ledger/entry.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import {
  budgetRows,
  budgetSum,
  checkStateWords,
  checkWords,
  studyRows,
  studySentences,
} from '../words/chest.ts';
import { amountOf, amountText } from './amount.ts';
import { budgetAgrees, budgetOf } from './budget-of.ts';
import { type Built, builtInstrument } from './built.ts';
import { admittedCheck, admittedCorrection, checkState } from './check.ts';
import { INSTRUMENT_TYPES } from './instrument-types.ts';
import { admittedStudy, adoptedStudy, studyWorked } from './study.ts';

const IN = 0.0254;
const bench = () => new Bench({ characteristics: [inches('size')] });
const none = new Map();

const built = (type: string, settings: Record<string, string> = {}, more: object = {}): Built => {
  const made = builtInstrument(none, { type, settings, system: 'inch', ...more });
  if (!made.ok) throw new Error(JSON.stringify(made.issues));
  return made.value;
};
const codes = (outcome: { ok: boolean; issues?: readonly { code: string }[] }): string[] =>
  outcome.ok ? [] : (outcome.issues ?? []).map(({ code }) => code);

const declared = (of: Bench, id: string, body: Built): Entry =>
  of.desk.write('instrument-declared', { instrument: id, name: id, type: 'x', ...body });

describe('every type of tool', () => {
  it.each(
    [...INSTRUMENT_TYPES.keys()].flatMap((type) => [[type, 'inch'] as const, [type, 'metric'] as const]),
  )(
    'a %s (%s) has a usual budget, every line with a source, that makes the U it is declared with',
    (type, system) => {
      const made = builtInstrument(none, { type, settings: {}, system });
      expect(codes(made)).toEqual([]);
      if (!made.ok) return;
      const body = { instrument: 'x', name: 'x', type, ...made.value };
      const worked = budgetOf(body);
      expect(worked && budgetAgrees(body, worked)).toBe(true);
      expect(made.value.trust).toBe('default');
      expect(made.value.budget?.every(({ source }) => source.length > 5)).toBe(true);
      // Neither all common nor all own: some of it cancels in a difference and some does not.
      expect(worked?.commonShare).toBeGreaterThan(0.05);
      expect(worked?.commonShare).toBeLessThan(0.95);
    },
  );

  it('inch and metric tools of one type are about as good', () => {
    for (const [type, { reads }] of INSTRUMENT_TYPES) {
      const [inch, metric] = (['inch', 'metric'] as const).map((system) => {
        const made = builtInstrument(none, { type, settings: {}, system });
        return made.ok ? (amountOf(made.value.uncertainty.expanded)?.value ?? 0) : 0;
      });
      expect(inch! / metric!, type).toBeGreaterThan(0.8);
      expect(inch! / metric!, type).toBeLessThan(reads === 'pressure' ? 1.4 : 1.25);
    }
  });
});

describe('a budget', () => {
  it('of a 3 in micrometer is DIN 863-1, its setting rod, its step and the feel, by hand', () => {
    // 5 µm/√3, the rod of 3 in as one of 75 mm 1 µm/√3, 2.54/√12, 2.54/2 [µm].
    const u = Math.hypot(5 / Math.sqrt(3), 1 / Math.sqrt(3), 2.54 / Math.sqrt(12), 2.54 / 2);
    const { uncertainty } = built('micrometer', { range: '3 in' });
    expect(amountOf(uncertainty.expanded)!.value * 1e6).toBeCloseTo(2 * u, 1);
    expect(uncertainty.common_share).toBeCloseTo((25 / 3 + 1 / 3) / u ** 2, 3);
  });

  it('of a pressure gauge goes by its class and the whole dial', () => {
    // Class 1 on 10 bar: .1/√3; steps of .2 read to half: .1/√12; a trembling needle .1/2.
    const { uncertainty } = built(
      'oil pressure gauge',
      { span: '10 bar', class: '1', step: '0.2 bar' },
      { system: 'metric' },
    );
    const u = Math.hypot(0.1 / Math.sqrt(3), 0.1 / Math.sqrt(12), 0.1 / 2);
    expect(amountOf(uncertainty.expanded)!.value / 1e5).toBeCloseTo(2 * u, 3);
  });

  it('of a class A burette is finer than of class B by what the class says, and no more', () => {
    const U = (accuracy: string): number =>
      amountOf(built('burette', { class: accuracy }).uncertainty.expanded)!.value;
    // (2 × .1/√3)² − (2 × .05/√3)² mL².
    expect((U('B') ** 2 - U('A') ** 2) * 1e12).toBeCloseTo((4 * (0.01 - 0.0025)) / 3, 3);
  });

  it('says what it cannot be built from', () => {
    const say = (type: string, settings: Record<string, string>) =>
      codes(builtInstrument(none, { type, settings, system: 'inch' }));
    expect(say('yardstick', {})).toEqual(['instrument/no-uncertainty']);
    expect(say('micrometer', { colour: 'red' })).toEqual(['instrument/unknown-setting']);
    expect(say('micrometer', { range: 'long' })).toEqual(['instrument/unreadable-setting']);
    expect(say('micrometer', { range: '3 psi' })).toEqual(['instrument/unreadable-setting']);
    expect(say('micrometer', { range: '20 in' })).toEqual(['instrument/no-budget']);
    expect(say('telescoping gauge', { range: '20 in' })).toEqual(['instrument/no-budget']);
    expect(say('burette', { class: 'C' })).toEqual(['instrument/unreadable-setting']);
    expect(
      codes(builtInstrument(none, { type: 'micrometer', settings: {}, system: 'inch', setIn: 'x' })),
    ).toEqual(['instrument/no-such-setting-standard']);
  });

  it('of a gauge set in a micrometer holds that micrometer’s common error under its name', () => {
    const of = bench();
    const made = builtInstrument(of.book().instruments, {
      type: 'dial bore gauge',
      settings: {},
      system: 'inch',
      setIn: 'mic',
    });
    if (!made.ok) throw new Error(JSON.stringify(made.issues));
    declared(of, 'set', made.value);
    const lent = made.value.budget!.filter((line) => line.of === 'mic');
    expect(lent).toHaveLength(1);
    // U .0002 of the micrometer, half of its variance common: .0002/√2.
    expect(amountOf(lent[0]!.amount)!.value / IN).toBeCloseTo(0.0002 / Math.SQRT2, 6);
    const rows = budgetRows(of.book(), budgetOf(of.book().instruments.get('set')!.body)!);
    expect(rows.map(({ whose }) => whose)).toContain('as in mic');
    expect(rows.reduce((s, { share }) => s + share, 0)).toBeCloseTo(1, 9);
  });

  it('that does not make the U declared says which one judges', () => {
    const made = built('micrometer');
    const body = {
      instrument: 'x',
      name: 'x',
      type: 'x',
      ...made,
      uncertainty: { ...made.uncertainty, expanded: '0.001 in' },
    };
    expect(budgetSum(body, budgetOf(body)!)).toContain(
      'The U declared is 0.001 in, and that is what judges.',
    );
  });

  it('an amount comes back as it was written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 6 }), (digits, places) => {
        const value = (digits / 10 ** places) * IN;
        const read = amountOf(amountText(value, 'length', 'in'));
        expect(read!.value / value).toBeCloseTo(1, 9);
      }),
    );
    expect(amountOf('0.2 g')?.kind).toBe('mass');
    expect(amountOf('1 degC')).toEqual({ kind: 'temperature', value: 1, unit: 'K' });
    expect(amountOf('nothing')).toBeUndefined();
  });
});

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

describe('a study of one’s own repeatability', () => {
  const ten = ['3', '4', '2', '3', '5', '3', '2', '4', '3', '1'].map((d) => ({ value: `1.000${d} in` }));
  const studied = (
    of: Bench,
    readings: readonly { part?: string; occasion?: string; value: string }[],
    instrument = 'mic',
  ) => {
    const body = admittedStudy(of.book(), { instrument, what: 'one thing', readings: [...readings] });
    if (!body.ok) throw new Error(JSON.stringify(body.issues));
    return of.desk.write('repeat-study', body.value);
  };

  it('of one thing is its standard deviation: by hand 0.000115 from ten readings', () => {
    // 3 4 2 3 5 3 2 4 3 1: mean 3, squares 0 1 1 0 4 0 1 1 0 4 = 12, 12/9 = 1.3333, s = 1.1547 tenths of a thou.
    const worked = studyWorked(bench().book().instruments, 'mic', ten);
    if (!worked.ok) throw new Error('no study');
    expect(worked.value.own / IN).toBeCloseTo(1.1547e-4, 8);
    expect(worked.value.dof).toBe(9);
    // U .0002 with half of the variance common: each reading's own is .0001/√2.
    expect(worked.value.assumed! / IN).toBeCloseTo(0.0001 / Math.SQRT2, 9);
    expect(worked.value.after! / IN).toBeCloseTo(2 * Math.hypot(1e-4 / Math.SQRT2, 1.1547e-4), 7);
    expect(studySentences('the mic', worked.value).join(' ')).toContain('too kind');
    expect(studyRows(worked.value)).toHaveLength(1);
  });

  it('adopted, takes the place of each reading’s own part and leaves what they share', () => {
    const of = bench();
    const study = studied(of, ten);
    const body = adoptedStudy(of.book(), study.id);
    if (!body.ok) throw new Error(JSON.stringify(body.issues));
    of.desk.write('instrument-declared', body.value);
    of.read('size', '1 in', { instrument: 'mic' });
    const { operand } = of.judgement('size');
    if (operand.kind !== 'value') throw new Error('no value');
    const terms = new Map(
      operand.q.terms.map(({ source, u, dof }) => [source.split(':')[0], { u: u / IN, dof }]),
    );
    expect(terms.get('instrument')?.u).toBeCloseTo(1e-4 / Math.SQRT2, 6);
    expect(terms.get('reading')?.u).toBeCloseTo(1.1547e-4, 6);
    expect(terms.get('reading')?.dof).toBe(9);
    expect(standardUncertainty(operand.q) / IN).toBeCloseTo(Math.hypot(1e-4 / Math.SQRT2, 1.1547e-4), 6);
  });

  it('of readings all alike takes what the step of the scale hides', () => {
    const worked = studyWorked(bench().book().instruments, 'mic', [
      { value: '1.000 in' },
      { value: '1.000 in' },
    ]);
    if (!worked.ok) throw new Error('no study');
    expect(worked.value.hidden).toBe(true);
    expect(worked.value.own / IN).toBeCloseTo(0.001 / Math.sqrt(12), 9);
  });

  it('that creeps says so', () => {
    const worked = studyWorked(
      bench().book().instruments,
      'mic',
      Array.from({ length: 10 }, (_, i) => ({ value: `1.00${i}0 in` })),
    );
    // Rising by one each time, r₁ = 0.7 for ten readings.
    expect(worked.ok && worked.value.drift).toBeCloseTo(0.7, 9);
    expect(worked.ok && studySentences('mic', worked.value).join(' ')).toContain('they creep');
  });

  it('over parts and occasions keeps the parts out of it', () => {
    const readings = ['1', '2'].flatMap((part) =>
      ['mon', 'tue'].flatMap((occasion) =>
        ['0', '2'].map((d) => ({ part, occasion, value: `${part}.000${d} in` })),
      ),
    );
    const worked = studyWorked(bench().book().instruments, 'mic', readings);
    if (!worked.ok) throw new Error(JSON.stringify(worked.issues));
    expect(worked.value.partNames).toEqual(['1', '2']);
    expect(worked.value.study.repeatability / IN).toBeLessThan(2e-4);
    expect(worked.value.study.variance.parts ** 0.5 / IN).toBeCloseTo(Math.SQRT1_2, 3);
    expect(studyRows(worked.value).map(({ source }) => source)[0]).toBe('parts');
  });

  it('is refused where it says nothing', () => {
    const of = bench();
    const say = (instrument: string, readings: { part?: string; value: string }[]) =>
      codes(admittedStudy(of.book(), { instrument, what: 'x', readings }));
    expect(say('nobody', ten)).toEqual(['instrument/unknown']);
    expect(say('mic', [{ value: '1 in' }, { value: 'two' }])).toEqual(['study/unreadable']);
    expect(say('mic', [{ value: '1 in' }, { value: '2 psi' }])).toEqual(['study/unreadable']);
    expect(
      say('mic', [
        { part: 'a', value: '1 in' },
        { part: 'b', value: '1 in' },
      ]),
    ).toEqual(['study/no-repeats']);
    expect(
      say('mic', [
        { part: 'a', value: '1 in' },
        { part: 'a', value: '1 in' },
        { part: 'b', value: '1 in' },
      ]),
    ).toEqual(['study/uneven']);
    expect(codes(adoptedStudy(of.book(), 'nothing'))).toEqual(['study/unknown']);
    const weights = studied(of, [{ value: '1 kg' }, { value: '1.1 kg' }]);
    expect(codes(adoptedStudy(of.book(), weights.id))).toEqual(['study/other-kind']);
  });

  it('of a tool whose U is a share of the reading is adopted as a share', () => {
    const of = bench();
    const study = studied(of, [{ value: '99 lbf' }, { value: '101 lbf' }], 'tester');
    const body = adoptedStudy(of.book(), study.id);
    if (!body.ok) throw new Error(JSON.stringify(body.issues));
    // s = √2 lbf of 100; common 3 %/2/√2.
    const u = Math.hypot(Math.SQRT2, 3 / 2 / Math.SQRT2);
    expect(Number.parseFloat(body.value.uncertainty.expanded)).toBeCloseTo(2 * u, 1);
    expect(body.value.uncertainty.expanded).toMatch(/%$/);
  });
});

import { standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { studyRows, studySentences } from '../words/chest.ts';
import { admittedStudy, adoptedStudy, studyWorked } from './study.ts';

const IN = 0.0254;
const bench = () => new Bench({ characteristics: [inches('size')] });
const codes = (outcome: { ok: boolean; issues?: readonly { code: string }[] }): string[] =>
  outcome.ok ? [] : (outcome.issues ?? []).map(({ code }) => code);

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

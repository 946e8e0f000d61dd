import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../ledger/entry.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { budgetRows, budgetSum } from '../words/chest.ts';
import { amountOf, amountText } from './amount.ts';
import { budgetAgrees, budgetOf } from './budget-of.ts';
import { type Built, builtInstrument } from './built.ts';
import { INSTRUMENT_TYPES } from './instrument-types.ts';

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

import { describe, expect, it } from 'vitest';
import type { Bench } from '../testing/bench.ts';
import { oiledBench, oiledSheet, reckoningOf } from '../testing/oiled-sheet.ts';
import { alikeWords, calibrationWords, chanceWords, strainWords } from '../words/diagnosis.ts';
import { calibrated } from './calibration.ts';
import { type Diagnosis, diagnosed } from './diagnosis.ts';
import type { Known } from './faulty-network.ts';
import type { When } from './gauge-evidence.ts';

type Said = readonly [pressure: string, speed: string, temperature?: string, more?: Record<string, string>];

function gauged(bench: Bench, readings: readonly Said[]): Bench {
  for (const [pressure, speed, temperature, more] of readings)
    bench.desk.write('gauge-reading', {
      pressure,
      speed,
      ...(temperature !== undefined && { temperature }),
      instrument: 'gauge',
      when: 'as-found',
      ...more,
    });
  return bench;
}

function diagnosis(bench: Bench, known: Known = 'before-strip', when: When = 'as-found'): Diagnosis {
  const book = bench.book();
  const found = diagnosed(book, reckoningOf(book), { known, when });
  if (!found.ok) throw new Error(JSON.stringify(found.issues));
  return found.value;
}

const LOW: readonly Said[] = [
  ['5 psi', '600 rpm', '93 degC'],
  ['9 psi', '1000 rpm', '93 degC'],
];

describe('a diagnosis', () => {
  const worn = diagnosis(gauged(oiledBench(), LOW));

  it('of a low gauge hot cannot tell bearings from pump, says so, and names a test that would', () => {
    const kinds = worn.alike[0]!.map(({ kind }) => kind);
    expect(kinds).toEqual(expect.arrayContaining(['bearings', 'pump-faces', 'pump-tips']));
    expect(alikeWords(worn.alike[0]!, 1)).toMatch(/[Bb]earings.* and pump|[Bb]earings, pump/);
    expect(alikeWords(worn.alike[0]!, 1)).toContain('cannot be told apart by this gauge alone');
    // Only what leaves out the pump, or everything else, parts the two.
    expect(['leak-test', 'pump-bench']).toContain(worn.tests[0]!.plan.id);
    expect(worn.tests[0]!.plan.cautions.length).toBeGreaterThan(0);
    const leak = worn.tests.find(({ plan }) => plan.id === 'leak-test')!;
    expect(leak.bits).toBeGreaterThan(0.3);
    expect(leak.plan.cautions.join(' ')).toMatch(/rated.*regulator.*eye shield/);
  });

  it('of a leak test says that little leaking means the pump, and much the bearings', () => {
    const leak = worn.tests.find(({ plan }) => plan.id === 'leak-test')!;
    const [little, much] = [leak.outcomes[0]!, leak.outcomes.at(-1)!];
    const chance = (of: typeof little, ...kinds: string[]) =>
      worn.order.reduce((sum, { kind }, f) => (kinds.includes(kind) ? sum + of.families[f]! : sum), 0);
    expect(chance(little, 'pump-faces', 'pump-tips')).toBeGreaterThan(
      2 * chance(much, 'pump-faces', 'pump-tips'),
    );
    expect(chance(much, 'bearings')).toBeGreaterThan(2 * chance(little, 'bearings'));
  });

  it('gives every test its chances: outcomes and families each sum to one', () => {
    for (const { outcomes, bits } of worn.tests) {
      expect(bits).toBeGreaterThanOrEqual(0);
      expect(outcomes.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 2);
      for (const { families } of outcomes) expect(families.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 6);
      // What the outcomes make of the families comes back, on average, to what is known now.
      worn.order.forEach(({ id }, f) => {
        const mean = outcomes.reduce((sum, { chance, families }) => sum + chance * families[f]!, 0);
        const now = worn.families.find(({ family }) => family.id === id)!.probability;
        expect(Math.abs(mean - now)).toBeLessThan(0.01);
      });
    }
  });

  it('without readings is what was assumed, and cannot-tell is not laid on a gauge that was not read', () => {
    const blank = diagnosis(oiledBench());
    for (const { family, probability } of blank.families) expect(probability).toBeCloseTo(family.prior, 12);
    expect(blank.alike).toEqual([]);
    expect(blank.fit).toBe(1);
    expect(blank.tests[0]!.bits).toBeGreaterThan(0.3);
  });

  it('leaves out what it cannot weigh, each with why', () => {
    const bench = gauged(oiledBench(), [
      ...LOW,
      ['6 psi', '600 rpm'],
      ['6 psi', '600 rpm', '93 degC', { oil: 'chip-fat' }],
      ['6 psi', '600 rpm', '93 degC', { instrument: 'mic' }],
      ['30 psi', '600 rpm', '93 degC', { when: 'start-up' }],
    ]);
    const { readings, leftOut } = diagnosis(bench);
    expect(readings).toHaveLength(2);
    expect(leftOut.map(({ why }) => why)).toEqual([
      expect.stringContaining('temperature'),
      expect.stringContaining('chip-fat'),
      expect.stringContaining('uncertainty'),
    ]);
    const since = diagnosis(bench, 'before-strip', 'since');
    expect(since.readings.map(({ said }) => said.pressure)).toEqual(['30 psi']);
  });

  it('asks for further readings only where none was taken', () => {
    const ids = worn.tests.map(({ plan }) => plan.id).filter((id) => id.startsWith('reading'));
    expect(ids.some((id) => id.includes('600 rpm') && id.includes('93'))).toBe(false);
    expect(ids.some((id) => id.includes('600 rpm') && id.includes('20'))).toBe(true);
  });

  it('says when no single fault comes near the readings', () => {
    expect(strainWords(worn)).toBeUndefined();
    const odd = diagnosis(
      gauged(oiledBench({ measured: true }), [
        ['30 psi', '600 rpm', '93 degC'],
        ['8 psi', '1000 rpm', '93 degC'],
        ['44 psi', '2000 rpm', '93 degC'],
      ]),
      'measured',
    );
    expect(strainWords(odd)).toContain('No single fault');
  });

  it('shows every prior and every doubt it assumes', () => {
    expect(worn.assumptions.length).toBeGreaterThan(worn.families.length + 5);
    for (const { family } of worn.families)
      expect(worn.assumptions.find(({ about }) => about === family.name)?.taken).toContain(
        'before any reading',
      );
  });

  it('of a sheet without a circuit is refused with what to do', () => {
    const sheet = oiledSheet();
    const dry = oiledBench({ sheet: { ...sheet, oil: undefined } }).book();
    const none = diagnosed(dry, reckoningOf(dry), { known: 'before-strip', when: 'as-found' });
    expect(none.ok ? [] : none.issues.map(({ code }) => code)).toEqual(['oil/no-circuit']);
  });
});

describe('in words', () => {
  it('chances have words in their order', () => {
    const words = [0.99, 0.8, 0.5, 0.2, 0.05, 0.001].map(chanceWords);
    expect(new Set(words).size).toBe(6);
    expect(words.at(-1)).toBe('all but ruled out');
  });

  it('a calibration always says by how many readings, and when it should not be trusted', () => {
    const bench = gauged(oiledBench({ measured: true }), LOW);
    const book = bench.book();
    const low = calibrated(book, reckoningOf(book), 'as-found');
    expect(low.ok && calibrationWords(low.value)).toMatch(/^Calibrated by 2 gauge readings/);
    const blank = oiledBench({ measured: true }).book();
    const none = calibrated(blank, reckoningOf(blank), 'as-found');
    expect(none.ok && calibrationWords(none.value)).toContain('as assumed');
    expect(none.ok && none.value.pressures).toHaveLength(8);
  });
});

it('leaves out what was read with a gauge whose check failed, and says so', () => {
  const bench = gauged(oiledBench(), LOW);
  expect(diagnosis(bench).leftOut).toEqual([]);
  bench.desk.write('instrument-checked', {
    instrument: 'gauge',
    against: '30 psi',
    read: '45 psi',
    good: false,
  });
  const [first] = bench.book().gaugeReadings;
  expect(first!.standing).toBe('to-be-taken-again');
  gauged(bench, [['7 psi', '600 rpm', '93 degC', { instrument: 'other' }]]);
  bench.declare('other', 'oil pressure gauge', { expanded: '3 psi', coverage: 2, common_share: 0.5 });
  const found = diagnosis(bench);
  expect(found.leftOut.map(({ entry }) => entry)).toEqual(
    bench
      .book()
      .gaugeReadings.slice(0, LOW.length)
      .map(({ entry }) => entry.id),
  );
  const book = bench.book();
  const set = calibrated(book, reckoningOf(book), 'as-found');
  expect(set.ok && set.value.readings).toHaveLength(1);
});

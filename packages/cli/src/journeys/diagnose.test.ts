import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

interface DiagnosisJson {
  readonly known: string;
  readonly readings: readonly { readonly entry: string }[];
  readonly families: readonly {
    readonly id: string;
    readonly kind: string;
    readonly prior: number;
    readonly probability: number;
  }[];
  readonly not_told_apart: readonly { readonly families: readonly string[]; readonly words: string }[];
  readonly tests: readonly {
    readonly id: string;
    readonly bits: number;
    readonly hours: number;
    readonly cautions: readonly string[];
  }[];
  readonly assumptions: readonly { readonly about: string; readonly taken: string }[];
  readonly calibration?: {
    readonly readings: number;
    readonly words: string;
    readonly pressures: readonly {
      readonly speed: number;
      readonly temperature: number;
      readonly uncalibrated: { readonly value: number; readonly standard_uncertainty: number };
      readonly calibrated: { readonly value: number; readonly standard_uncertainty: number };
    }[];
  };
}

const PSI = 6894.757;
const desk = new CommandDesk();
let van: DiagnosisJson;
let stripped: DiagnosisJson;

beforeAll(async () => {
  await desk.good('new', '--demo', 'linnet');
  van = await desk.json<DiagnosisJson>('diagnose', 'linnet', '--before-strip');
  stripped = await desk.json<DiagnosisJson>('diagnose', 'linnet');
});
afterAll(() => desk.clear());

const chance = ({ families }: DiagnosisJson, ...kinds: string[]) =>
  families.filter(({ kind }) => kinds.includes(kind)).reduce((sum, { probability }) => sum + probability, 0);

describe('the demo engine still in the van', () => {
  it('is worn, in bearings or pump or both; neither spring nor gauge nor oil explains it', () => {
    expect(van.readings).toHaveLength(5);
    expect(chance(van, 'bearings', 'pump-faces', 'pump-tips', 'worn-throughout')).toBeGreaterThan(0.95);
    expect(chance(van, 'spring', 'gauge', 'nothing')).toBeLessThan(0.01);
    expect(van.families.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
  });

  it('bearings against pump cannot be separated by the gauge alone, and the next test is named', async () => {
    const [group] = van.not_told_apart;
    expect(group!.words).toContain('Bearings and pump cannot be told apart by this gauge alone');
    expect(group!.families.some((id) => id.startsWith('bearings'))).toBe(true);
    expect(group!.families.some((id) => id.startsWith('pump'))).toBe(true);
    const [next] = van.tests;
    expect(['leak-test', 'pump-bench']).toContain(next!.id);
    expect(next!.bits).toBeGreaterThan(0.5);
    const { out } = await desk.good('diagnose', 'linnet', '--before-strip');
    expect(out.replace(/\s+/g, ' ')).toContain('Bearings and pump cannot be told apart by this gauge alone');
    expect(out).toMatch(/Caution: .*[Dd]rill|Caution: Pressurised vessel/);
    expect(out).toContain('One fault at a time');
  });

  it('the leak test is among the tests, with its cautions; a second gauge would tell little', () => {
    const test = (id: string) => van.tests.find((one) => one.id === id)!;
    expect(test('leak-test').bits).toBeGreaterThan(5 * test('second-gauge').bits);
    expect(test('leak-test').cautions[0]).toMatch(/Pressurised vessel.*rated.*regulator.*eye shield/);
  });
});

describe('the demo engine measured', () => {
  it('has nothing further wrong: its clearances explain the gauge', () => {
    expect(stripped.families[0]).toMatchObject({ kind: 'nothing' });
    expect(stripped.families[0]!.probability).toBeGreaterThan(0.7);
  });

  it('calibrates the assumed constants by the five readings, the plain prediction beside it', async () => {
    const { calibration } = stripped;
    expect(calibration).toMatchObject({ readings: 5, words: expect.stringMatching(/^Calibrated by 5/) });
    const idle = calibration!.pressures.find(
      ({ speed, temperature }) => Math.abs(speed - 62.83) < 0.1 && temperature > 350,
    )!;
    // The figure that "fettle oil" shows, and a gauge that said 7.5.
    expect(idle.uncalibrated.value / PSI).toBeCloseTo(7.9, 1);
    expect(idle.calibrated.value).toBeLessThan(idle.uncalibrated.value);
    expect(idle.calibrated.value / PSI).toBeGreaterThan(7.2);
    expect(idle.calibrated.standard_uncertainty).toBeLessThan(0.7 * idle.uncalibrated.standard_uncertainty);
    expect(van.calibration).toBeUndefined();
    const { out } = await desk.good('diagnose', 'linnet');
    expect(out).toContain('constants as assumed  calibrated');
  });

  it('shows every assumption when asked, and in the answer for programs always', async () => {
    const { out } = await desk.good('diagnose', 'linnet', '--assumptions');
    const flat = out.replace(/\s+/g, ' ');
    for (const { about } of stripped.assumptions) expect(flat).toContain(about);
    expect(stripped.assumptions.length).toBeGreaterThan(15);
  });

  it('together again and not yet run, answers with what was assumed beforehand', async () => {
    const now = await desk.json<DiagnosisJson>('diagnose', 'linnet', '--now');
    expect(now.readings).toEqual([]);
    for (const { prior, probability } of now.families) expect(probability).toBeCloseTo(prior, 9);
    expect(now.not_told_apart).toEqual([]);
  });
});

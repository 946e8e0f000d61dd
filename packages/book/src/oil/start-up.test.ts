import { CATALOGUE, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import type { Body } from '../ledger/bodies.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { gaugeReadingsAt } from './gauge-readings.ts';
import { type GaugeJudgement, gaugeJudgement } from './start-up.ts';

const PSI = 6894.757;
const source = { document: 'made', trust: 'assumed' };

/** One pump and one jet: a pressure that hand arithmetic gives. */
function bench(): Bench {
  const made = new Bench({
    characteristics: [inches('jet')],
    oil: {
      grades: { thin: { name: 'Thin', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
      fill: 'thin',
      density15: '885 kg/m3',
      hot: '93 degC',
      speeds: ['600 rpm'],
      pressures: [{ speed: '600 rpm', temperature: '93 degC', lower: '15 psi', source }],
      circuit: {
        gauge: 'gallery',
        elements: [
          {
            id: 'pump',
            law: 'gear-pump',
            from: 'sump',
            to: 'gallery',
            displacement: '0.6 in3',
            speed_ratio: 0.5,
          },
          {
            id: 'jet',
            law: 'orifice',
            from: 'gallery',
            to: 'sump',
            diameter: { from: 'jet', nominal: '0.08 in' },
            discharge_coefficient: 0.62,
          },
        ],
      },
    },
  });
  made.declare('gauge', 'oil pressure gauge', { expanded: '3 psi', coverage: 2, common_share: 0.5 });
  return made;
}

const reading = (pressure: string, more: Partial<Body<'gauge-reading'>> = {}): Body<'gauge-reading'> => ({
  pressure,
  speed: '600 rpm',
  temperature: '93 degC',
  instrument: 'gauge',
  when: 'start-up',
  ...more,
});

function judgedAs(body: Body<'gauge-reading'>): GaugeJudgement {
  const made = bench();
  made.desk.write('gauge-reading', body);
  const book = made.book();
  const answer = gaugeJudgement(book, CATALOGUE, book.gaugeReadings.at(-1)!);
  if (!answer.ok) throw new Error(answer.issues[0]!.message);
  return answer.value;
}

/**
 * All goes through one jet, p ∝ Cd⁻²: its coefficient is doubted by ±6 % in the logarithm, each prediction by 4 % of its
 * own. By hand: half of e^0.12 − e^−0.12, and 0.04 beside it.
 */
const MODEL = Math.hypot(Math.sinh(0.12), 0.04);

describe('a gauge reading of the first start', () => {
  it('is held against what the clearances foretell, with the doubt of gauge and model', () => {
    const { expected, shown } = judgedAs(reading('20 psi'));
    // All that the pump sweeps goes through the jet: p = ½ ρ (Q/(Cd A))², ρ = 835 kg/m³ at 93 °C by the tables.
    const flow = 0.6 * 0.0254 ** 3 * 5;
    const area = (Math.PI / 4) * (0.08 * 0.0254) ** 2;
    const byHand = 0.5 * 834 * (flow / (0.62 * area)) ** 2;
    expect(expected.value / byHand).toBeCloseTo(1, 1);
    expect(standardUncertainty(expected) / expected.value).toBeCloseTo(MODEL, 4);
    expect(standardUncertainty(shown) / PSI).toBeCloseTo(1.5, 6);
  });

  it('is as expected near it, lower or higher only beyond what both doubts explain', () => {
    const middle = judgedAs(reading('20 psi')).expected.value / PSI;
    const at = (psi: number) => judgedAs(reading(`${psi.toFixed(2)} psi`));
    const U = 2 * Math.hypot(MODEL * middle, 1.5);
    expect(at(middle).answer).toBe('as-expected');
    expect(at(middle - 0.9 * U).answer).toBe('as-expected');
    expect(at(middle - 1.1 * U).answer).toBe('lower');
    expect(at(middle + 1.1 * U).answer).toBe('higher');
    expect(at(middle - 1.1 * U).stop).toBe(true);
    expect(at(middle + 1.1 * U).stop).toBe(false);
  });

  it('is no pressure where the gauge cannot be told from nothing, and stops the engine', () => {
    expect(judgedAs(reading('1 psi'))).toMatchObject({ answer: 'no-pressure', stop: true });
  });

  it('has the sheet’s own limit beside it where there is one', () => {
    expect(judgedAs(reading('30 psi')).wanted?.verdict).toBe('in');
    expect(judgedAs(reading('14 psi')).wanted?.verdict).toBe('cannot-tell');
    expect(judgedAs(reading('8 psi')).wanted?.verdict).toBe('out');
    expect(judgedAs(reading('30 psi', { speed: '900 rpm' })).wanted).toBeUndefined();
  });

  it('by a gauge whose check failed can still stop the engine, and proves nothing', () => {
    const made = bench();
    made.desk.write('gauge-reading', reading('30 psi'));
    made.desk.write('gauge-reading', reading('1 psi'));
    const failed = made.desk.write('instrument-checked', {
      instrument: 'gauge',
      against: '30 psi',
      read: '45 psi',
      good: false,
    });
    const book = made.book();
    const answers = book.gaugeReadings.map((one) => gaugeJudgement(book, CATALOGUE, one));
    expect(
      answers.map((one) => one.ok && [one.value.doubted, one.value.stop, one.value.wanted?.verdict]),
    ).toEqual([
      [failed.id, false, 'cannot-tell'],
      [failed.id, true, 'cannot-tell'],
    ]);
    const at = answers[0]!.ok ? answers[0]!.value.running : undefined;
    expect(gaugeReadingsAt(book, at!)).toEqual([]);
    made.desk.strike(failed);
    expect(gaugeReadingsAt(made.book(), at!)).toHaveLength(2);
  });

  it('is not judged without the temperature of the oil, or by a gauge nobody declared', () => {
    const made = bench();
    const { temperature: _, ...cold } = reading('20 psi');
    made.desk.write('gauge-reading', cold);
    made.desk.write('gauge-reading', reading('20 psi', { instrument: 'borrowed' }));
    const book = made.book();
    const codes = book.gaugeReadings.map((one) => {
      const answer = gaugeJudgement(book, CATALOGUE, one);
      return answer.ok ? 'judged' : answer.issues[0]!.code;
    });
    expect(codes).toEqual(['gauge/no-temperature', 'instrument/unknown']);
  });
});

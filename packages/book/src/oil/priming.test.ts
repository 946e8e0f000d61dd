import { CATALOGUE, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { filledCircuit } from './circuit.ts';
import { type Priming, priming } from './priming.ts';

const source = { document: 'made', trust: 'assumed' };
const INCH = 0.0254;
const RPM = Math.PI / 30;

/** A gear pump and a jet behind twenty inches of passage; the gaps are those of a worn pump. */
const bench = (more: Record<string, unknown> = {}) =>
  new Bench({
    characteristics: [inches('end', {}), inches('tips', {})],
    oil: {
      grades: { thirty: { name: 'Thirty', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
      fill: 'thirty',
      density15: '885 kg/m3',
      cold: '20 degC',
      hot: '93 degC',
      speeds: ['600 rpm'],
      priming: { lift: '7 in', cranking: '150 rpm', source, ...more },
      circuit: {
        gauge: 'gallery',
        elements: [
          {
            id: 'pump',
            law: 'gear-pump',
            from: 'sump',
            to: 'pump',
            displacement: '0.615 in3',
            speed_ratio: 0.5,
            face_ratio: 2,
            end_clearance: { from: 'end', nominal: '0.0025 in' },
            tip_clearance: { from: 'tips', nominal: '0.0025 in' },
            tip_land: '0.045 in',
            tips_in_series: 3,
            face_width: '0.752 in',
          },
          { id: 'delivery', law: 'passage', from: 'pump', to: 'gallery', bore: '0.4375 in', length: '20 in' },
          {
            id: 'jet',
            law: 'orifice',
            from: 'gallery',
            to: 'sump',
            diameter: '0.03 in',
            discharge_coefficient: 0.62,
          },
        ],
      },
    },
  });

function primed(made: Bench, options = {}): Priming {
  const book = made.book();
  const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
  if (!circuit.ok) throw new Error(circuit.issues[0]!.message);
  const answer = priming(book, circuit.value, options);
  if (!answer.ok) throw new Error(answer.issues[0]!.message);
  return answer.value;
}

function worn(): Bench {
  const made = bench();
  made.read('end', '0.0070 in', { instrument: 'depth' });
  made.read('tips', '0.0050 in', { instrument: 'mic' });
  return made;
}

describe('the dry pump', () => {
  it('lifts next to nothing on the starter when worn: seven inches are out of its reach', () => {
    const [starter] = primed(worn()).drives;
    expect(starter!.speed).toBeCloseTo(75 * RPM, 6);
    // By hand: C = (4 h³ + 2 b t³/(l n))/(12 μ) = 2.08e-7 m³/(s Pa); V n = 1.26e-5 m³/s; 61 Pa; 7 mm of oil.
    expect(starter!.dry.value / INCH).toBeGreaterThan(0.2);
    expect(starter!.dry.value / INCH).toBeLessThan(0.35);
    expect(standardUncertainty(starter!.dry)).toBeGreaterThan(0);
    expect(starter!.dryVerdict).toBe('out');
    expect(starter!.sealedVerdict).toBe('in');
  });

  it('lifts by the speed of the drill in proportion, and says from which speed it would do', () => {
    const answer = primed(worn(), { drill: 750 * RPM });
    const [starter, drill] = answer.drives;
    expect(drill!.dry.value / starter!.dry.value).toBeCloseTo(10, 0);
    const enough = primed(worn(), { drill: answer.neededSpeed!.value });
    expect(enough.drives[1]!.dry.value / INCH).toBeCloseTo(7, 3);
    expect(enough.drives[1]!.dryVerdict).toBe('cannot-tell');
  });

  it('shows that nothing was measured, and takes the gaps as new', () => {
    const answer = primed(bench());
    expect(answer.gaps.map(({ name, measured }) => [name, measured])).toEqual([
      ['end clearance', false],
      ['tip clearance', false],
    ]);
    expect(answer.drives[0]!.dry.terms).toEqual([]);
    expect(answer.drives[0]!.dry.value).toBeGreaterThan(primed(worn()).drives[0]!.dry.value);
  });

  it('counts no more lift for a sealed pump than dissolved air allows', () => {
    // 16.93 kPa over 880 kg/m³ and gravity is 1.96 m.
    for (const { sealed } of primed(bench()).drives) expect(sealed.value).toBeCloseTo(1.96, 1);
  });

  it('fills the passages in the time the swept volume takes', () => {
    // π/4 × .4375² × 20 = 3.007 in³, at .615 in³ × 75/60 a second.
    expect(primed(bench()).drives[0]!.fill).toBeCloseTo(3.007 / (0.615 * 1.25), 2);
    // Another 6 in³ in the filter take three times as long in all.
    expect(primed(bench({ fill_volume: '6.013 in3' })).drives[0]!.fill).toBeCloseTo(9.02 / (0.615 * 1.25), 2);
  });

  it('says what is missing where the sheet does not tell how high the pump sits', () => {
    const made = new Bench({ characteristics: [inches('end')] });
    const book = made.book();
    const circuit = filledCircuit(
      worn().book(),
      new Reckoning(worn().book(), asFittedNow(worn().book()), CATALOGUE),
    );
    const answer = circuit.ok ? priming(book, circuit.value) : circuit;
    expect(answer.ok ? [] : answer.issues.map(({ code }) => code)).toEqual(['oil/no-priming']);
  });
});

describe('a pump of one rotor inside another', () => {
  it('is an air pump by its sides, tips and body alike: the slip by hand', () => {
    const made = new Bench({
      characteristics: [inches('side', {})],
      oil: {
        grades: { thirty: { name: 'Thirty', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
        fill: 'thirty',
        density15: '885 kg/m3',
        cold: '20 degC',
        hot: '93 degC',
        speeds: ['700 rpm'],
        priming: { lift: '220 mm', cranking: '180 rpm', source },
        circuit: {
          gauge: 'gallery',
          elements: [
            {
              id: 'pump',
              law: 'rotor-pump',
              from: 'sump',
              to: 'gallery',
              displacement: '14.2 cm3',
              thickness: '12 mm',
              speed_ratio: 1,
              side_clearance: { from: 'side', nominal: '0.055 mm' },
              face_ratio: 2,
              body_clearance: '0.15 mm',
              body_arc: '40 mm',
            },
            {
              id: 'jet',
              law: 'orifice',
              from: 'gallery',
              to: 'sump',
              diameter: '1 mm',
              discharge_coefficient: 0.62,
            },
          ],
        },
      },
    });
    const answer = primed(made);
    expect(answer.gaps.map(({ name }) => name)).toEqual(['side clearance', 'body clearance']);
    const [starter] = answer.drives;
    expect(starter!.speed).toBeCloseTo(180 * RPM, 6);
    // By hand, air at 20 °C 1.813e-5 Pa·s: k h³ = 2·(5.5e-5)³ = 3.33e-13, 2 b c³/l = 2·.012·(1.5e-4)³/.04 = 2.03e-12;
    // together over 12 μ: 1.084e-8 m³/(s Pa). V n = 4.26e-5 m³/s, over C: 3930 Pa, a little less by the air's thinning.
    const s = 4.26e-5 / (1.084e-8 * 101_325);
    const inlet = 101_325 * (Math.sqrt(s * s + 1) - s);
    const density = 885 - 0.65 * 5;
    expect(starter!.dry.value / ((101_325 - inlet) / (density * 9.80665))).toBeCloseTo(1, 2);
    expect(starter!.dryVerdict).toBe('in');
  });
});

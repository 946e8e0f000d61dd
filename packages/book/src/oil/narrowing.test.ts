import { CATALOGUE, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches, lessOf } from '../testing/tiny-sheet.ts';
import { filledCircuit } from './circuit.ts';
import { type Narrowing, narrowing } from './narrowing.ts';
import { gaugePressure } from './pressure.ts';

const IDLE = { speed: (600 * 2 * Math.PI) / 60, temperature: 273.15 + 93 };

/** A pump whose end clearance is depth less width, and a main bearing read directly. */
const SHEET = {
  characteristics: [
    inches('depth'),
    inches('width'),
    inches('end', {
      relation: lessOf('depth', 'width'),
    }),
    inches('main'),
  ],
  oil: {
    grades: { thin: { name: 'Thin', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
    fill: 'thin',
    density15: '885 kg/m3',
    hot: '93 degC',
    speeds: ['600 rpm'],
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
          face_ratio: 2,
          face_split: 0,
          end_clearance: { from: 'end', nominal: '0.0025 in' },
        },
        {
          id: 'main',
          law: 'groove-bearing',
          from: 'gallery',
          to: 'sump',
          diameter: '2.5 in',
          land_length: '0.6 in',
          eccentricity_ratio: 0.6,
          radial_clearance: { from: 'main', factor: 0.5, nominal: '0.0020 in' },
        },
      ],
    },
  },
};

const said = (of: (bench: Bench) => void): { found: Narrowing; u: number } => {
  const bench = new Bench(SHEET);
  of(bench);
  const book = bench.book();
  const reckoning = new Reckoning(book, asFittedNow(book), CATALOGUE);
  const found = narrowing(reckoning, CATALOGUE, IDLE);
  const circuit = filledCircuit(book, reckoning);
  if (!found.ok || !circuit.ok) throw new Error(JSON.stringify([found, circuit]));
  return {
    found: found.value,
    u: standardUncertainty(gaugePressure(circuit.value, IDLE, { as: 'measured' })),
  };
};
const of = (found: Narrowing, id: string) =>
  found.readings.find(({ characteristic }) => characteristic.id === id)!;

const worn = (depth: string, main: string) => (bench: Bench) => {
  bench.read('depth', '0.7545 in', { instrument: depth });
  bench.read('width', '0.7505 in', { instrument: 'mic' });
  bench.read('main', '0.0036 in', { instrument: main });
};

describe('what would narrow the band', () => {
  it('gives the causes shares of the very variance of the pressure, 1 together', () => {
    const { found, u } = said(worn('depth', 'dbg'));
    expect(standardUncertainty(found.pressure) / u).toBeCloseTo(1, 4);
    expect(found.causes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    // One reading an instrument, half of each variance common: the two halves are equal.
    const depth = found.causes.filter(({ of }) => /depth/i.test(of));
    expect(depth.map(({ cause }) => cause).sort()).toEqual(['instrument', 'readings']);
    expect(depth[0]!.share).toBeCloseTo(depth[1]!.share, 9);
  });

  it('ranks the readings by what is left without their errors', () => {
    const { found, u } = said(worn('depth', 'dbg'));
    expect(found.readings.map(({ characteristic }) => characteristic.id)).toHaveLength(3);
    expect(found.readings.map(({ without }) => without)).toEqual(
      found.readings.map(({ without }) => without).sort((a, b) => a - b),
    );
    // The depth micrometer is twice as coarse as the other: of the end clearance's variance 4 parts in 5 are its.
    const [depth, width, main] = ['depth', 'width', 'main'].map((id) => of(found, id).share);
    expect(depth! / width!).toBeCloseTo(4, 2);
    expect(depth! + width! + main!).toBeCloseTo(1, 2);
    for (const { without, share } of found.readings) expect(without / u).toBeCloseTo(Math.sqrt(1 - share), 6);
  });

  it('names the readings by entry, place and words', () => {
    const { found } = said(worn('depth', 'dbg'));
    const [reading] = of(found, 'depth').readings;
    expect(reading).toMatchObject({ place: {}, said: '0.7545 in' });
    expect(reading!.entry).toMatch(/^[0-9a-f-]{36}$/);
  });

  it('says what the finest instrument owned that takes the same would leave', () => {
    // A telescoping gauge of .0007 where the dial bore gauge of .0003 is owned.
    const { found } = said(worn('depth', 'tele'));
    const { finest, without } = of(found, 'main');
    expect(finest?.instrument).toBe('dbg');
    const { u } = said(worn('depth', 'dbg'));
    // Slopes are taken one standard uncertainty wide, and that of the coarser gauge is wider.
    expect(finest!.left / u).toBeCloseTo(1, 2);
    expect(finest!.left).toBeGreaterThan(without);
    expect(of(found, 'width').finest).toBeUndefined();
  });

  it('counts what an instrument has in common: two readings of one, whose errors cancel, are worth little', () => {
    // Both sides of the difference by the same depth micrometer: only the own halves are left.
    const { found } = said((bench) => {
      bench.read('depth', '0.7545 in', { instrument: 'depth' });
      bench.read('width', '0.7505 in', { instrument: 'depth' });
    });
    expect(found.causes.map(({ cause, of, share }) => [cause, of, Math.round(share * 100)])).toEqual([
      ['readings', 'depth', 50],
      ['readings', 'width', 50],
    ]);
    // Without its own error the other's common one no longer cancels: nothing at all is gained.
    for (const one of found.readings) expect(one.share).toBeCloseTo(0, 3);
    expect(found.unmeasured.map(({ id }) => id)).toEqual(['main']);
  });

  it('takes a bracket away when a number would stand in its place', () => {
    const { found, u } = said((bench) => {
      bench.read('main', { goes: '0.003 in', stops: '0.004 in' }, { instrument: 'leaves' });
    });
    expect(found.causes[0]).toMatchObject({ cause: 'bracket', of: 'main' });
    expect(u).toBeGreaterThan(0);
    expect(of(found, 'main').without).toBeCloseTo(0, 6);
    expect(of(found, 'main').readings[0]!.said).toBe('0.003 in goes, 0.004 in does not');
  });
});

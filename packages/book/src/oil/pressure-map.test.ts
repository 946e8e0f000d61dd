import { CATALOGUE } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches, tinySheet } from '../testing/tiny-sheet.ts';
import { filledCircuit } from './circuit.ts';
import { gaugePressure } from './pressure.ts';
import { mapLimits, pressureMap, sheetGrid } from './pressure-map.ts';

const rpm = (n: number) => (n * Math.PI) / 30;
const celsius = (t: number) => 273.15 + t;

const SHEET = {
  characteristics: [inches('main')],
  oil: {
    grades: {
      thin: { name: 'Thin', kv40: '93 mm2/s', kv100: '10.8 mm2/s' },
      thick: { name: 'Thick', kv40: '140 mm2/s', kv100: '14.4 mm2/s' },
    },
    fill: 'thin',
    density15: '885 kg/m3',
    hot: '93 degC',
    cold: '20 degC',
    speeds: ['600 rpm', '3000 rpm'],
    pressures: [
      {
        speed: '2000 rpm',
        temperature: '93 degC',
        lower: '40 psi',
        source: { document: 'made', trust: 'assumed' },
      },
    ],
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
          end_clearance: '0.003 in',
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
        {
          id: 'jet',
          law: 'orifice',
          from: 'gallery',
          to: 'sump',
          diameter: '0.06 in',
          discharge_coefficient: 0.62,
        },
      ],
    },
  },
};

function circuitOf(grade?: string) {
  const bench = new Bench(SHEET);
  bench.read('main', '0.0036 in', { instrument: 'dbg' });
  const book = bench.book();
  const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE), grade);
  if (!circuit.ok) throw new Error(JSON.stringify(circuit.issues));
  return circuit.value;
}

describe('the map of pressures', () => {
  const grid = { speeds: [rpm(3000), rpm(600), rpm(1500)], temperatures: [celsius(20), celsius(93)] };

  it('holds at every point what the gauge shows there alone, whichever way it came', () => {
    const circuit = circuitOf();
    for (const state of [{ as: 'measured' }, { as: 'new' }, { as: 'repaired', repairs: ['main'] }] as const) {
      const map = pressureMap(circuit, grid, state);
      expect(map.speeds).toEqual([rpm(600), rpm(1500), rpm(3000)]);
      map.temperatures.forEach((temperature, t) => {
        map.speeds.forEach((speed, s) => {
          const alone = gaugePressure(circuit, { speed, temperature }, state).value;
          expect(map.pressures[t * map.speeds.length + s]! / alone).toBeCloseTo(1, 7);
        });
      });
    }
  });

  it('rises with speed, falls with heat and is higher with the thicker oil', () => {
    const thin = pressureMap(circuitOf(), grid, { as: 'measured' }).pressures;
    const thick = pressureMap(circuitOf('thick'), grid, { as: 'measured' }).pressures;
    for (const t of [0, 1])
      for (const s of [1, 2]) expect(thin[t * 3 + s]!).toBeGreaterThan(thin[t * 3 + s - 1]!);
    for (const s of [0, 1, 2]) expect(thin[3 + s]!).toBeLessThan(thin[s]!);
    thin.forEach((pressure, i) => {
      expect(thick[i]!).toBeGreaterThan(pressure);
    });
  });

  it('spans what the sheet speaks of, with its own speeds and temperatures among the lines', () => {
    const { sheet } = tinySheet(SHEET);
    const { speeds, temperatures } = sheetGrid(sheet, 9, 7)!;
    expect([speeds.length, temperatures.length]).toEqual([9, 7]);
    for (const wanted of [600, 2000, 3000])
      expect(Math.min(...speeds.map((speed) => Math.abs(speed - rpm(wanted))))).toBeLessThan(1e-9);
    expect(temperatures[0]).toBeCloseTo(celsius(20), 9);
    expect(temperatures.at(-1)).toBeCloseTo(celsius(103), 9);
    expect(temperatures.some((t) => Math.abs(t - celsius(93)) < 1e-9)).toBe(true);
    expect(sheetGrid(undefined)).toBeUndefined();
  });

  it('marks what the sheet wants where it wants it', () => {
    const { sheet } = tinySheet(SHEET);
    const map = pressureMap(circuitOf(), sheetGrid(sheet, 9, 7)!, { as: 'measured' });
    const [limit, ...more] = mapLimits(sheet, map);
    expect(more).toEqual([]);
    expect(limit).toMatchObject({ wanted: { printed: { lower: '40 psi' } } });
    const there = { speed: rpm(2000), temperature: celsius(93) };
    expect(limit!.predicted / gaugePressure(circuitOf(), there, { as: 'measured' }).value).toBeCloseTo(1, 7);
  });
});

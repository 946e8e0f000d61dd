import { CATALOGUE } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { filledCircuit } from './circuit.ts';
import { circuitFlows } from './circuit-flows.ts';
import { gaugePressure } from './pressure.ts';

const IDLE = { speed: (600 * 2 * Math.PI) / 60, temperature: 273.15 + 93 };
const orifice = (id: string, from: string, to: string, diameter: string) => ({
  id,
  law: 'orifice',
  from,
  to,
  diameter,
  discharge_coefficient: 0.62,
});
const main = (id: string) => ({
  id,
  law: 'groove-bearing',
  from: 'gallery',
  to: 'sump',
  diameter: '2.5 in',
  land_length: '0.6 in',
  eccentricity_ratio: 0.6,
  radial_clearance: { from: 'main', nominal: '0.0010 in' },
});

const flows = () => {
  const bench = new Bench({
    characteristics: [inches('main')],
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
            end_clearance: '0.003 in',
          },
          main('main-1'),
          main('main-2'),
          orifice('rocker-feed', 'gallery', 'rockers', '0.045 in'),
          orifice('spill', 'rockers', 'sump', '0.03 in'),
        ],
      },
    },
  });
  const book = bench.book();
  const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
  if (!circuit.ok) throw new Error(JSON.stringify(circuit.issues));
  return { circuit: circuit.value, flows: circuitFlows(circuit.value, IDLE, { as: 'measured' }) };
};

describe('the flows of a circuit', () => {
  it('take like elements between the same nodes together, by their common name', () => {
    expect(
      flows().flows.groups.map(({ name, members, from, to, pumps }) => ({ name, members, from, to, pumps })),
    ).toEqual([
      { name: 'pump', members: ['pump'], from: undefined, to: 'gallery', pumps: true },
      { name: 'main', members: ['main-1', 'main-2'], from: 'gallery', to: undefined, pumps: false },
      { name: 'rocker feed', members: ['rocker-feed'], from: 'gallery', to: 'rockers', pumps: false },
      { name: 'spill', members: ['spill'], from: 'rockers', to: undefined, pumps: false },
    ]);
  });

  it('balance at every node, and the pump gives what it sweeps less what slips back', () => {
    const { circuit, flows: found } = flows();
    for (const node of ['gallery', 'rockers']) {
      const sum = found.groups.reduce(
        (s, { from, to, flow }) => s + (to === node ? flow : 0) - (from === node ? flow : 0),
        0,
      );
      expect(Math.abs(sum)).toBeLessThan(1e-6 * found.delivered);
    }
    // 0.6 in³ a turn of the pump, which turns five times a second.
    expect(found.swept! / (0.6 * 0.0254 ** 3 * 5)).toBeCloseTo(1, 9);
    expect(found.delivered + found.back!).toBeCloseTo(found.swept!, 12);
    expect(found.back!).toBeGreaterThan(0);
    expect(found.pressures.gallery! / gaugePressure(circuit, IDLE, { as: 'measured' }).value).toBeCloseTo(
      1,
      6,
    );
    expect(found.gauge).toBe('gallery');
  });
});

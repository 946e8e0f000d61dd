import { CATALOGUE, compiledNetwork, linear, solvedNetwork, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { type FilledCircuit, filledCircuit } from './circuit.ts';
import {
  colderIsLess,
  gaugePressure,
  gaugePressureSpread,
  oilShares,
  repairsOf,
  sweptFlow,
} from './pressure.ts';

const THOU = 25.4e-6;
const IDLE = { speed: (600 * 2 * Math.PI) / 60, temperature: 273.15 + 93 };

const PUMP = {
  id: 'pump',
  law: 'gear-pump',
  from: 'sump',
  to: 'gallery',
  displacement: '0.6 in3',
  speed_ratio: 0.5,
  face_ratio: 2,
  face_split: 0,
};
const MAIN = {
  id: 'main',
  law: 'groove-bearing',
  from: 'gallery',
  to: 'sump',
  diameter: '2.5 in',
  land_length: '0.6 in',
  eccentricity_ratio: 0.6,
};
const JET = {
  id: 'jet',
  law: 'orifice',
  from: 'gallery',
  to: 'sump',
  diameter: '0.03 in',
  discharge_coefficient: 0.62,
};
const FLUID = { kv40: '93 mm2/s', kv100: '10.8 mm2/s', density15: '885 kg/m3' };

/** A pump that leaks past its ends, one main bearing and a jet; clearances total and diametral, in inches. */
const sheet = (main: Record<string, unknown> = {}, ends = 'mean-cube') => ({
  axes: { point: ['1', '2'], main: ['1', '2'] },
  characteristics: [
    inches('end', {
      places: ['point'],
      reduce: { by: 'worst', over: ['point'] },
      limits: { wear: { upper: '0.006 in' } },
    }),
    inches('clearance', { places: ['main'], limits: { wear: { upper: '0.004 in' } } }),
  ],
  oil: {
    grades: {
      thin: { name: 'Thin', kv40: FLUID.kv40, kv100: FLUID.kv100 },
      thick: { name: 'Thick', kv40: '140 mm2/s', kv100: '14.4 mm2/s' },
    },
    fill: 'thin',
    density15: FLUID.density15,
    hot: '93 degC',
    speeds: ['600 rpm'],
    circuit: {
      gauge: 'gallery',
      elements: [
        { ...PUMP, end_clearance: { from: 'end', reduce: ends, nominal: '0.0025 in' } },
        {
          ...MAIN,
          radial_clearance: {
            from: 'clearance',
            at: { main: '2' },
            factor: 0.5,
            nominal: '0.0020 in',
            ...main,
          },
        },
        JET,
      ],
    },
  },
});

function filled(bench: Bench, grade?: string): FilledCircuit {
  const book = bench.book();
  const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE), grade);
  if (!circuit.ok) throw new Error(JSON.stringify(circuit.issues));
  return circuit.value;
}
const parameter = (circuit: FilledCircuit, name: string) => {
  const found = circuit.parameters.find((p) => p.name === name);
  if (!found) throw new Error(`no parameter ${name}`);
  return found;
};

/** The same circuit written out by hand, through the network solver alone. */
function byHand(endThou: number, radialThou: number): number {
  const network = compiledNetwork({
    gauge: 'gallery',
    fluid: FLUID,
    elements: [
      { ...PUMP, end_clearance: `${endThou} thou` },
      { ...MAIN, radial_clearance: `${radialThou} thou` },
      JET,
    ],
  });
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  const solved = solvedNetwork(network.value, IDLE);
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  return solved.value.pressures.gallery!;
}

/** Ends of .003 and .005 in, clearances of main 1 and 2 of .003 and .0035 in. */
function worn(main: Record<string, unknown> = {}): Bench {
  const bench = new Bench(sheet(main));
  bench.read('end', '0.0030 in', { at: '1', instrument: 'depth' });
  bench.read('end', '0.0050 in', { at: '2', instrument: 'depth' });
  bench.read('clearance', '0.0030 in', { at: '1', instrument: 'dbg' });
  bench.read('clearance', '0.0035 in', { at: '2', instrument: 'dbg' });
  return bench;
}

describe('the circuit filled from what was measured', () => {
  it('takes the mean of the cubes over a mapped face, half a diametral clearance, and the place it names', () => {
    const circuit = filled(worn());
    const end = parameter(circuit, 'pump.end_clearance');
    expect(end.measured!.value / THOU).toBeCloseTo(Math.cbrt((27 + 125) / 2), 6);
    expect(end.entries).toHaveLength(2);
    const main = parameter(circuit, 'main.radial_clearance');
    expect(main.measured!.value / THOU).toBeCloseTo(1.75, 6);
    expect(standardUncertainty(main.measured!) / THOU).toBeCloseTo(0.075, 6);
    expect(main.entries).toHaveLength(1);
    expect([end.nominal, main.nominal].map((x) => Math.round((x / THOU) * 1e6) / 1e6)).toEqual([2.5, 1]);
  });

  it('falls back to nominal values only visibly', () => {
    const circuit = filled(new Bench(sheet()));
    for (const one of circuit.parameters) expect(one).toMatchObject({ trust: 'assumed', entries: [] });
    for (const one of circuit.parameters) expect(one.measured).toBeUndefined();
    const bench = new Bench(sheet());
    bench.read('end', '0.0030 in', { at: '1', instrument: 'depth' });
    // One of two points is not the face.
    expect(parameter(filled(bench), 'pump.end_clearance').measured).toBeUndefined();
  });

  it('takes a bracket alone as anything between its edges, and one edge alone as nothing', () => {
    const bench = new Bench(sheet());
    bench.read('clearance', { goes: '0.002 in', stops: '0.004 in' }, { at: '2', instrument: 'leaves' });
    const main = parameter(filled(bench), 'main.radial_clearance').measured!;
    expect(main.value / THOU).toBeCloseTo(1.5, 6);
    // Half of: uniform over 2 thou, 2/√12; and edges of u = ¼ thou each.
    const edges = Math.hypot(0.25, 0.25) / 2;
    expect(standardUncertainty(main) / THOU).toBeCloseTo(Math.hypot(2 / Math.sqrt(12), edges) / 2, 6);
    expect(main.terms.some(({ shape }) => shape === 'rectangular')).toBe(true);
    const open = new Bench(sheet());
    open.read('clearance', { goes: '0.002 in' }, { at: '2', instrument: 'leaves' });
    expect(parameter(filled(open), 'main.radial_clearance').measured).toBeUndefined();
  });

  it('takes the worst place where the circuit says so', () => {
    const bench = new Bench(sheet({}, 'worst'));
    for (const [at, size] of Object.entries({ '1': '0.0030', '2': '0.0050' }))
      bench.read('end', `${size} in`, { at, instrument: 'depth' });
    expect(parameter(filled(bench), 'pump.end_clearance').measured!.value / THOU).toBeCloseTo(5, 6);
  });

  it('takes the worst place of a new part by the limits for new parts', () => {
    const { characteristics, ...rest } = sheet({}, 'worst');
    const [end, clearance] = characteristics;
    const own = { new: { lower: '0.002 in', upper: '0.003 in' }, wear: { upper: '0.006 in' } };
    const bench = new Bench({
      ...rest,
      positions: [{ id: 'pump', name: 'Pump' }],
      characteristics: [{ ...end, position: 'pump', limits: own }, clearance],
    });
    bench.part('new-pump', 'pump', 'new');
    // .0025 is the nearer one to the limit for wear; .0018 is out as new.
    for (const [at, size] of Object.entries({ '1': '0.0025', '2': '0.0018' }))
      bench.read('end', `${size} in`, { at, instrument: 'depth', confirmed: true });
    expect(parameter(filled(bench), 'pump.end_clearance').measured!.value / THOU).toBeCloseTo(1.8, 6);
  });

  it('is complete input for the oil-network calculation once everything is as new', () => {
    const circuit = filled(worn());
    const network = compiledNetwork({ ...circuit.input, speed: IDLE.speed, temperature: IDLE.temperature });
    const solved = network.ok ? solvedNetwork(network.value, {}) : network;
    expect(solved.ok && solved.value.pressures.gallery).toBeCloseTo(byHand(2.5, 1), 3);
  });

  it('says what is wrong when there is no circuit, or no such oil', () => {
    const bench = new Bench({ characteristics: [inches('end')] });
    const book = bench.book();
    const none = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
    expect(none.ok ? [] : none.issues.map(({ code }) => code)).toEqual(['oil/no-circuit']);
    const oiled = worn().book();
    const grade = filledCircuit(oiled, new Reckoning(oiled, asFittedNow(oiled), CATALOGUE), 'chip-fat');
    expect(grade.ok ? [] : grade.issues).toMatchObject([
      { code: 'oil/unknown-grade', wanted: 'thin, thick' },
    ]);
  });
});

describe('the pressure at the gauge', () => {
  const circuit = filled(worn());

  it('as new is that of the nominal clearances, without doubt', () => {
    const asNew = gaugePressure(circuit, IDLE, { as: 'new' });
    expect(asNew.value).toBeCloseTo(byHand(2.5, 1), 1);
    expect(standardUncertainty(asNew)).toBe(0);
  });

  it('as measured is that of the measured clearances', () => {
    const measured = gaugePressure(circuit, IDLE, { as: 'measured' });
    expect(measured.value).toBeCloseTo(byHand(Math.cbrt(76), 1.75), 1);
    expect(measured.value).toBeLessThan(gaugePressure(circuit, IDLE, { as: 'new' }).value);
  });

  it('of an engine where nothing was measured is that as new', () => {
    const bare = filled(new Bench(sheet()));
    expect(gaugePressure(bare, IDLE, { as: 'measured' }).value).toBeCloseTo(byHand(2.5, 1), 1);
  });

  it('comes back with each repair, and with all of them is as new', () => {
    const repairs = repairsOf(circuit);
    expect(repairs).toEqual(['end', 'clearance']);
    const after = (some: string[]) => gaugePressure(circuit, IDLE, { as: 'repaired', repairs: some }).value;
    expect(after([])).toBeCloseTo(gaugePressure(circuit, IDLE, { as: 'measured' }).value, 3);
    expect(after(['end'])).toBeCloseTo(byHand(2.5, 1.75), 1);
    expect(after(['clearance'])).toBeCloseTo(byHand(Math.cbrt(76), 1), 1);
    expect(after(repairs)).toBeCloseTo(byHand(2.5, 1), 1);
  });

  it('after a repair is that of the repaired value, which need not be as new, and repairs have names', () => {
    const ground = filled(worn({ repaired: '0.0024 in', repair: 'crank grind' }));
    expect(repairsOf(ground)).toEqual(['end', 'crank grind']);
    const after = gaugePressure(ground, IDLE, { as: 'repaired', repairs: ['end', 'crank grind'] });
    expect(after.value).toBeCloseTo(byHand(2.5, 1.2), 1);
  });

  it('with a clearance tried is that of the value tried, and knows no doubt of it', () => {
    const tried = gaugePressure(circuit, IDLE, {
      as: 'tried',
      repairs: ['end'],
      values: { 'main.radial_clearance': 1.5 * THOU },
    });
    expect(tried.value).toBeCloseTo(byHand(2.5, 1.5), 1);
    expect(standardUncertainty(tried)).toBe(0);
    const nothing = gaugePressure(circuit, IDLE, { as: 'tried', repairs: [], values: {} });
    expect(nothing.value).toBeCloseTo(gaugePressure(circuit, IDLE, { as: 'measured' }).value, 9);
  });

  it('has about the same spread to first order as drawn', () => {
    const first = gaugePressure(circuit, IDLE, { as: 'measured' });
    const drawn = gaugePressureSpread(circuit, IDLE, { as: 'measured' }, { trials: 4000, seed: 7 });
    expect(standardUncertainty(first)).toBeGreaterThan(0);
    expect(drawn.lost).toBe(0);
    expect(Math.abs(drawn.u / standardUncertainty(first) - 1)).toBeLessThan(0.1);
    expect(Math.abs(drawn.mean - first.value)).toBeLessThan(standardUncertainty(first) / 2);
  });

  it('knows what two predictions have in common: the gain of a repair is known better than either', () => {
    const before = gaugePressure(circuit, IDLE, { as: 'measured' });
    const after = gaugePressure(circuit, IDLE, { as: 'repaired', repairs: ['clearance'] });
    const gain = linear([
      { factor: 1, of: after },
      { factor: -1, of: before },
    ]);
    expect(standardUncertainty(gain)).toBeLessThan(
      Math.hypot(standardUncertainty(before), standardUncertainty(after)),
    );
  });

  it('rises with thicker oil', () => {
    const thick = gaugePressure(filled(worn(), 'thick'), IDLE, { as: 'measured' });
    expect(thick.value).toBeGreaterThan(gaugePressure(circuit, IDLE, { as: 'measured' }).value);
  });

  it('is made up of flows that balance at the gallery', () => {
    const { shares, pressures } = oilShares(circuit, IDLE, { as: 'measured' });
    const flow = Object.fromEntries(shares.map((share) => [share.element, share.flow]));
    expect(flow.pump!).toBeGreaterThan(0);
    expect(flow.main! + flow.jet!).toBeCloseTo(flow.pump!, 12);
    expect((flow.main! + flow.jet!) / flow.pump!).toBeCloseTo(1, 6);
    expect(pressures.gallery).toBeCloseTo(byHand(Math.cbrt(76), 1.75), 1);
  });

  it('tells what drains into the sump from what the pump sweeps', () => {
    const { shares } = oilShares(circuit, IDLE, { as: 'measured' });
    expect(shares.map(({ element, drains }) => [element, drains])).toEqual([
      ['pump', false],
      ['main', true],
      ['jet', true],
    ]);
    // 0.6 in³ a turn of the pump, which turns 5 times a second at 600 rpm.
    expect(sweptFlow(circuit, IDLE)).toBeCloseTo(0.6 * 0.0254 ** 3 * 5, 12);
    const delivered = shares.find(({ element }) => element === 'pump')!.flow;
    expect(delivered).toBeLessThan(sweptFlow(circuit, IDLE)!);
  });
});

it('tells where a colder gauge stands under a hotter one at the same speed', () => {
  const row = (speed: number, temperature: number, value: number) => ({ speed, temperature, value });
  expect(colderIsLess([row(1, 20, 5), row(1, 90, 4), row(2, 20, 6), row(2, 90, 6.5)])).toBe(true);
  expect(colderIsLess([row(1, 20, 5), row(1, 90, 4), row(2, 90, 9)])).toBe(false);
});

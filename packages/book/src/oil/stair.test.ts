import { CATALOGUE, compiledNetwork, solvedNetwork, standardUncertainty } from '@fettle/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { type FilledCircuit, filledCircuit } from './circuit.ts';
import { gaugePressure } from './pressure.ts';
import { pressureStair, roundedToSum } from './stair.ts';

const IDLE = { speed: (600 * 2 * Math.PI) / 60, temperature: 273.15 + 93 };
const FLUID = { kv40: '93 mm2/s', kv100: '10.8 mm2/s', density15: '885 kg/m3' };
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
const ROD = { ...MAIN, id: 'rod', diameter: '2 in', land_length: '0.5 in' };
const JET = {
  id: 'jet',
  law: 'orifice',
  from: 'gallery',
  to: 'sump',
  diameter: '0.03 in',
  discharge_coefficient: 0.62,
};

/** A pump worn at its ends, a main and a rod bearing; radial clearances, all in inches. */
const sheet = (rod: Record<string, unknown> = {}) => ({
  characteristics: [inches('end'), inches('main'), inches('rod')],
  oil: {
    grades: { thin: { name: 'Thin', kv40: FLUID.kv40, kv100: FLUID.kv100 } },
    fill: 'thin',
    density15: FLUID.density15,
    hot: '93 degC',
    speeds: ['600 rpm'],
    circuit: {
      gauge: 'gallery',
      elements: [
        { ...PUMP, end_clearance: { from: 'end', nominal: '0.0025 in' } },
        { ...MAIN, radial_clearance: { from: 'main', nominal: '0.0010 in' } },
        { ...ROD, radial_clearance: { from: 'rod', nominal: '0.0009 in', ...rod } },
        JET,
      ],
    },
  },
});

function circuitOf(worn: Record<string, string>, rod: Record<string, unknown> = {}): FilledCircuit {
  const bench = new Bench(sheet(rod));
  for (const [id, size] of Object.entries(worn)) bench.read(id, `${size} in`, { instrument: 'depth' });
  const book = bench.book();
  const circuit = filledCircuit(book, new Reckoning(book, asFittedNow(book), CATALOGUE));
  if (!circuit.ok) throw new Error(JSON.stringify(circuit.issues));
  return circuit.value;
}

/** The same circuit through the network solver alone; clearances in thou. */
function byHand(end: number, main: number, rod: number): number {
  const network = compiledNetwork({
    gauge: 'gallery',
    fluid: FLUID,
    elements: [
      { ...PUMP, end_clearance: `${end} thou` },
      { ...MAIN, radial_clearance: `${main} thou` },
      { ...ROD, radial_clearance: `${rod} thou` },
      JET,
    ],
  });
  const solved = network.ok ? solvedNetwork(network.value, IDLE) : network;
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  return solved.value.pressures.gallery!;
}

const WORN = { end: '0.0050', main: '0.0018', rod: '0.0014' };
const treadOf = (circuit: FilledCircuit, repair: string, lifted: string[] = []) =>
  pressureStair(circuit, IDLE, { lifted }).treads.find((tread) => tread.repair === repair)!;

describe('the pressure stair', () => {
  it('shares the loss of three by all six orders of repair, each pressure solved by hand', () => {
    const v = (end: boolean, main: boolean, rod: boolean) =>
      byHand(end ? 2.5 : 5, main ? 1 : 1.8, rod ? 0.9 : 1.4);
    const [o, e, m, r] = [
      v(false, false, false),
      v(true, false, false),
      v(false, true, false),
      v(false, false, true),
    ];
    const [em, er, mr, emr] = [
      v(true, true, false),
      v(true, false, true),
      v(false, true, true),
      v(true, true, true),
    ];
    const stair = pressureStair(circuitOf(WORN), IDLE);
    expect(stair.exact).toBe(true);
    expect(stair.asNew).toBeCloseTo(emr, 1);
    expect(stair.now).toBeCloseTo(o, 1);
    const shares = Object.fromEntries(stair.treads.map(({ repair, share }) => [repair, share.value]));
    expect(shares.end).toBeCloseTo((2 * (e - o) + (em - m) + (er - r) + 2 * (emr - mr)) / 6, 1);
    expect(shares.main).toBeCloseTo((2 * (m - o) + (em - e) + (mr - r) + 2 * (emr - er)) / 6, 1);
    expect(shares.rod).toBeCloseTo((2 * (r - o) + (er - e) + (mr - m) + 2 * (emr - em)) / 6, 1);
    expect(stair.treads.map((tread) => tread.with)).toEqual([
      expect.closeTo(e, 1),
      expect.closeTo(m, 1),
      expect.closeTo(r, 1),
    ]);
  });

  it('adds up to as new less now, whatever the clearances and whatever is lifted', () => {
    const thou = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
    fc.assert(
      fc.property(
        thou(2, 7),
        thou(0.8, 3),
        thou(0.8, 3),
        fc.subarray(['end', 'main', 'rod']),
        fc.boolean(),
        (end, main, rod, lifted, drawn) => {
          const inch = (size: number) => (size / 1000).toFixed(7);
          const circuit = circuitOf(
            { end: inch(end), main: inch(main), rod: inch(rod) },
            { repaired: '0.0011 in' },
          );
          const stair = pressureStair(circuit, IDLE, {
            lifted,
            doubtSolves: 0,
            ...(drawn && { exactUpTo: 0, orders: 4 }),
          });
          const sum = stair.treads.reduce((s, { share }) => s + share.value, 0);
          expect(Math.abs(sum - (stair.asNew - stair.now))).toBeLessThan(1e-6 * stair.asNew);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('moves when a tread is lifted: that one carries nothing, the gauge shows its repair', () => {
    const circuit = circuitOf(WORN);
    const stair = pressureStair(circuit, IDLE, { lifted: ['end'] });
    expect(stair.now).toBeCloseTo(byHand(2.5, 1.8, 1.4), 1);
    expect(stair.asFound).toBeCloseTo(byHand(5, 1.8, 1.4), 1);
    const [end, main] = stair.treads;
    expect(end).toMatchObject({ lifted: true, share: { value: 0, terms: [] } });
    expect(end!.with).toBeCloseTo(stair.now, 3);
    expect(main!.with).toBeCloseTo(byHand(2.5, 1, 1.4), 1);
    // What the others carry grows once the greatest leak is closed.
    expect(main!.share.value).toBeGreaterThan(treadOf(circuit, 'main').share.value);
  });

  it('keeps what a repair leaves as its tread: ground and fitted wider than new', () => {
    const circuit = circuitOf(WORN, { repaired: '0.0011 in' });
    const rest = treadOf(circuit, 'rod', ['end', 'main', 'rod']);
    expect(rest.share.value).toBeCloseTo(byHand(2.5, 1, 0.9) - byHand(2.5, 1, 1.1), 1);
    expect(rest.share.value).toBeGreaterThan(0);
  });

  it('gives nothing to what was not measured, and says so', () => {
    const tread = treadOf(circuitOf({ end: '0.0050' }), 'main');
    expect(tread).toMatchObject({ share: { value: 0, terms: [] }, measured: false });
  });

  it('of a single worn part is its whole loss, with the doubt of the pressure itself', () => {
    const circuit = circuitOf({ end: '0.0050' });
    const { share } = treadOf(circuit, 'end');
    expect(share.value).toBeCloseTo(byHand(2.5, 1, 0.9) - byHand(5, 1, 0.9), 1);
    const now = gaugePressure(circuit, IDLE, { as: 'measured' });
    expect(standardUncertainty(share)).toBeCloseTo(standardUncertainty(now), 1);
  });

  it('has doubts that together are those of the pressure: the treads share their sources', () => {
    const circuit = circuitOf(WORN);
    const { treads, doubted } = pressureStair(circuit, IDLE);
    expect(doubted).toBe(true);
    const bySource = new Map<string, number>();
    for (const { share } of treads)
      for (const { source, u } of share.terms) bySource.set(source, (bySource.get(source) ?? 0) + u);
    const whole = Math.hypot(...bySource.values());
    const now = standardUncertainty(gaugePressure(circuit, IDLE, { as: 'measured' }));
    expect(whole / now).toBeCloseTo(1, 4);
    expect(pressureStair(circuit, IDLE, { doubtSolves: 1 })).toMatchObject({ doubted: false });
  });
});

describe('figures rounded to their sum', () => {
  it('add up as printed, none moved by a whole step', () => {
    expect(roundedToSum([7.14, 6.35, 9.12], 22.6, 0.1).map((x) => x.toFixed(1))).toEqual([
      '7.1',
      '6.4',
      '9.1',
    ]);
    fc.assert(
      fc.property(fc.array(fc.double({ min: -3, max: 9, noNaN: true }), { minLength: 1 }), (figures) => {
        const sum = figures.reduce((s, x) => s + x, 0);
        const whole = Math.round(sum * 10) / 10;
        const rounded = roundedToSum(figures, whole, 0.1);
        expect(rounded.reduce((s, x) => s + x, 0)).toBeCloseTo(whole, 6);
        rounded.forEach((x, i) => {
          expect(Math.abs(x - figures[i]!)).toBeLessThan(0.1001);
        });
      }),
    );
  });

  it('leave nothing at nothing', () => {
    expect(roundedToSum([0, 1.26, 1.26], 2.6, 0.1)[0]).toBe(0);
    expect(roundedToSum([], 0, 0.1)).toEqual([]);
  });
});

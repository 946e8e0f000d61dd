import { CATALOGUE, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { Reckoning } from '../assess/reckoning.ts';
import { asFittedNow } from '../assess/selection.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { bearingLoads, CYCLE_POINTS, filledCrank } from './bearing-loads.ts';
import { filledCircuit } from './circuit.ts';
import { filmPrediction } from './film-temperatures.ts';
import { gaugePressure } from './pressure.ts';

const RUNNING = { speed: (2000 * Math.PI) / 30, temperature: 366.15 };

const CRANK = {
  bore: '90 mm',
  stroke: '100 mm',
  rod: '180 mm',
  compression_ratio: '7',
  rod_mass: { from: 'rod.weight' },
  cylinders: [
    { name: '1', fires: '0 deg', rod: 'rod-1', mains: ['main-1', 'main-2'], at: { rod: '1' } },
    { name: '2', fires: '360 deg', rod: 'rod-2', mains: ['main-1', 'main-2'], at: { rod: '2' } },
  ],
};
const MAIN = {
  law: 'groove-bearing',
  from: 'gallery',
  diameter: '60 mm',
  land_length: '12 mm',
  eccentricity_ratio: 0.6,
  film_rise: '12 K',
};
const ROD = {
  law: 'hole-bearing',
  from: 'gallery',
  diameter: '50 mm',
  length: '14 mm',
  hole_diameter: '5 mm',
  hole: 'rotating',
  radial_clearance: '25 um',
  eccentricity_ratio: 0.7,
  film_rise: '12 K',
};

/** A twin of invented figures; everything but the crank can be taken away. */
const sheet = (more: Record<string, unknown> = {}) => ({
  axes: { rod: ['1', '2'] },
  characteristics: [
    inches('clearance', { limits: { wear: { upper: '0.006 in' } } }),
    { id: 'rod.weight', name: 'Rod weight', kind: 'mass', unit: 'g', places: ['rod'], no_limits: 'none' },
  ],
  oil: {
    grades: { sae30: { name: 'SAE 30', kv40: '93 mm2/s', kv100: '10.8 mm2/s' } },
    fill: 'sae30',
    density15: '885 kg/m3',
    hot: '93 degC',
    speeds: ['600 rpm'],
    circuit: {
      gauge: 'gallery',
      elements: [
        { id: 'pump', law: 'gear-pump', to: 'gallery', displacement: '0.5 in3', speed_ratio: 0.5 },
        ...['main-1', 'main-2'].map((id) => ({
          ...MAIN,
          id,
          radial_clearance: { from: 'clearance', factor: 0.5, nominal: '0.0020 in' },
        })),
        { ...ROD, id: 'rod-1' },
        { ...ROD, id: 'rod-2' },
        { ...ROD, id: 'cam', hole: 'widest', eccentricity_ratio: 0.3, speed_ratio: 0.5 },
        { ...ROD, id: 'rocker', hole: 'widest', eccentricity_ratio: 0.3, film_rise: '0 K' },
      ],
    },
  },
  crank: CRANK,
  ...more,
});

const at = (bench: Bench) => {
  const book = bench.book();
  const reckoning = new Reckoning(book, asFittedNow(book), CATALOGUE);
  const circuit = filledCircuit(book, reckoning);
  if (!circuit.ok) throw new Error(JSON.stringify(circuit.issues));
  return { book, circuit: circuit.value, crank: filledCrank(book, reckoning) };
};
const filled = (bench: Bench) => {
  const { crank } = at(bench);
  if (!crank.ok) throw new Error(JSON.stringify(crank.issues));
  return crank.value;
};
const predicted = (bench: Bench, load = 1) => {
  const { circuit, crank } = at(bench);
  const films = filmPrediction(circuit, crank.ok ? crank.value : undefined, RUNNING, load);
  if (!films.ok) throw new Error(JSON.stringify(films.issues));
  return films.value;
};
const codes = (more: Record<string, unknown>): string[] => {
  const { tiny } = new Bench(sheet());
  const read = readSheet({ ...tiny.sheet, crank: { ...CRANK, ...more } });
  return read.ok ? [] : read.issues.map(({ code }) => code);
};

describe('the crank of the sheet', () => {
  it('lets something stand in for what nobody knows, by the size of the piston', () => {
    const { figures } = filled(new Bench(sheet())).cylinders[0]!;
    const area = (Math.PI / 4) * 0.09 ** 2;
    expect(figures.piston_mass).toMatchObject({ from: 'assumed', value: expect.closeTo(115 * area, 9) });
    expect(figures.rod_mass).toMatchObject({ from: 'assumed', value: expect.closeTo(150 * area, 9) });
    expect(figures.rod_big_end_mass.value / figures.rod_mass.value).toBeCloseTo(0.725, 9);
    expect(figures.throw_mass).toMatchObject({ from: 'assumed', value: 0 });
    for (const one of Object.values(figures)) expect(one.basis !== undefined).toBe(one.from === 'assumed');
  });

  it('takes each rod as it was weighed, and the share of its big end from that', () => {
    const bench = new Bench(sheet());
    bench.declare('scale', 'scale', { expanded: '0.2 g', coverage: 2, common_share: 0.5 });
    bench.read('rod.weight', '800 g', { at: '1', instrument: 'scale' });
    const [one, two] = filled(bench).cylinders;
    expect(one!.figures.rod_mass).toMatchObject({
      from: 'measured',
      value: 0.8,
      entries: [expect.any(String)],
    });
    expect(one!.figures.rod_big_end_mass.value).toBeCloseTo(0.58, 9);
    expect(two!.figures.rod_mass.from).toBe('assumed');
  });

  it('is refused when it names what the circuit has not, or cannot turn', () => {
    expect(codes({})).toEqual([]);
    const [first] = CRANK.cylinders;
    expect(codes({ cylinders: [{ ...first, rod: 'rod-9' }] })).toEqual(['sheet/unknown-bearing']);
    expect(codes({ cylinders: [{ ...first, mains: ['pump'] }] })).toEqual(['sheet/unknown-bearing']);
    expect(codes({ cylinders: [{ ...first, fires: '720 deg' }] })).toEqual(['sheet/outside-the-cycle']);
    expect(codes({ stroke: '0 mm' })).toEqual(['sheet/not-positive']);
    expect(codes({ bore: { from: 'rod.weight' } })).toEqual(['sheet/other-kind']);
    expect(codes({ rod_mass: { from: 'nothing' } })).toEqual(['sheet/unknown-characteristic']);
    expect(codes({ bore: '90' })).toHaveLength(1);
    const { crank } = at(new Bench(sheet({ crank: { ...CRANK, rod: '40 mm' } })));
    expect(crank.ok ? [] : crank.issues.map(({ code }) => code)).toEqual(['film/impossible-crank']);
  });
});

describe('the loads of the bearings', () => {
  it('are half of both throws on each main, and whole on the rods', () => {
    const { bearings } = bearingLoads(filled(new Bench(sheet())), { speed: RUNNING.speed, load: 1 });
    const of = (name: string) => bearings.find(({ element }) => element === name)!;
    for (const i of [0, 100, 400]) {
      const later = (i + CYCLE_POINTS / 2) % CYCLE_POINTS;
      const both = of('rod-1').load.x[i]! + of('rod-2').load.x[later]!;
      expect(of('main-1').load.x[i]).toBeCloseTo(both / 2, 6);
    }
    expect(of('main-1').greatest).toBeCloseTo(of('main-2').greatest, 6);
  });

  it('grow with the charge', () => {
    const crank = filled(new Bench(sheet()));
    const at = (load: number) => bearingLoads(crank, { speed: 60, load });
    expect(at(1).peakPressure / at(0.5).peakPressure).toBeGreaterThan(1.9);
    expect(at(1).bearings[0]!.greatest).toBeGreaterThan(at(0.5).bearings[0]!.greatest);
  });
});

describe('the films', () => {
  it('are warmed in mains, rods and cam, each beside what the circuit assumes, and not in what only swings', () => {
    const { films, gauge } = predicted(new Bench(sheet()));
    expect(films.map(({ element }) => element)).toEqual(['main-1', 'main-2', 'rod-1', 'rod-2', 'cam']);
    for (const { assumed, computed } of films) {
      expect(assumed.rise).toBe(12);
      expect(computed!.carried).toBe(true);
    }
    const cam = films.at(-1)!;
    expect(cam.load).toBeUndefined();
    expect(cam.orbit).toBeUndefined();
    expect(cam.computed!.eccentricity).toBe(0.3);
    expect(gauge.computed).toBeDefined();
  });

  it('leave the assumed pressure what the circuit alone predicts', () => {
    const bench = new Bench(sheet());
    const { circuit } = at(bench);
    const alone = gaugePressure(circuit, RUNNING, { as: 'measured' }).value;
    expect(predicted(bench).gauge.assumed / alone).toBeCloseTo(1, 9);
  });

  it('go by the measured clearance', () => {
    const bench = new Bench(sheet());
    const before = predicted(bench).films[0]!;
    expect(before.measured).toBe(false);
    bench.read('clearance', '0.0040 in', { instrument: 'dbg' });
    const after = predicted(bench).films[0]!;
    expect(after.measured).toBe(true);
    expect(after.clearance).toBeCloseTo(50.8e-6, 9);
    expect(after.computed!.eccentricity).toBeGreaterThan(before.computed!.eccentricity);
    expect(after.computed!.rise).toBeLessThan(before.computed!.rise);
  });

  it('are found without a crank as well, at the eccentricities the circuit assumes', () => {
    const bench = new Bench(sheet({ crank: undefined }));
    const { crank } = at(bench);
    expect(crank.ok ? [] : crank.issues.map(({ code }) => code)).toEqual(['film/no-crank']);
    const { films, loads, cautions } = predicted(bench);
    expect(loads).toBeUndefined();
    expect(films.every(({ orbit, computed }) => !orbit && computed)).toBe(true);
    expect(cautions.map(({ code }) => code)).toEqual(['film/heat-by-oil-alone']);
  });

  it('come with the least film of a settled path, inside the clearance, and with cautions', () => {
    const { films, cautions } = predicted(new Bench(sheet()));
    for (const { load, orbit, clearance } of films.filter(({ load }) => load)) {
      expect(load!.greatest).toBeGreaterThan(load!.mean);
      expect(orbit!.settled).toBe(true);
      expect(orbit!.leastFilm).toBeGreaterThan(0);
      expect(orbit!.leastFilm).toBeLessThan(clearance);
    }
    expect(cautions.map(({ code }) => code)).toContain('film/cyclic-minimum');
    // Lands and rods are all under 0.3 diameters here.
    expect(cautions.map(({ code }) => code)).not.toContain('film/beyond-solved');
  });

  it('carry the doubt of the readings: as much as all of it worked anew with the reading moved by its uncertainty', () => {
    const with_ = (inches: number) => {
      const bench = new Bench(sheet());
      bench.read('clearance', `${inches} in`, { instrument: 'dbg' });
      return { bench, films: predicted(bench).films };
    };
    const { bench, films } = with_(0.004);
    const { circuit } = at(bench);
    const u = 2 * standardUncertainty(circuit.parameters[0]!.measured!);
    const [more, less] = [with_(0.004 + u / 0.0254), with_(0.004 - u / 0.0254)];
    films.forEach(({ element, least, load }, i) => {
      for (const which of ['steady', 'cycle'] as const) {
        const moved = (of: typeof more): number | undefined => of.films[i]!.least[which]?.value;
        if (!load && which === 'cycle') {
          expect(least.cycle).toBeUndefined();
          continue;
        }
        const anew = Math.abs(moved(more)! - moved(less)!) / 2;
        const told = standardUncertainty(least[which]!);
        if (element.startsWith('main')) expect(told).toBeGreaterThan(0);
        // Rods and cam were not measured: only what the mains let go warms or cools them.
        expect(Math.abs(told - anew)).toBeLessThan(0.1 * anew + 2e-10);
      }
    });
  });

  it('carry none where nothing was measured', () => {
    for (const { least } of predicted(new Bench(sheet())).films)
      expect([least.steady, least.cycle].flatMap((one) => one?.terms ?? [])).toEqual([]);
  });
});

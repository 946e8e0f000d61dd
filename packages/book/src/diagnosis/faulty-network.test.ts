import { compiledNetwork, solvedNetwork } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { oiledBench, reckoningOf } from '../testing/oiled-sheet.ts';
import { clearanceGroups } from './clearance-groups.ts';
import { faultyNetwork } from './diagnosis.ts';
import { doubtsOf } from './doubts.ts';
import { faultFamilies } from './families.ts';
import { severityAt } from './family.ts';
import type { FaultyNetwork, Known, Setting } from './faulty-network.ts';
import { VESSEL_PRESSURE } from './rigs.ts';

const HOT = 273.15 + 93;
const COLD = 293.15;
const IDLE: Setting = { rig: 'engine', speed: 20 * Math.PI, temperature: HOT, grade: 'thin' };
const FAST: Setting = { ...IDLE, speed: 100 * Math.PI };
const VESSEL: Setting = { ...IDLE, rig: 'leak-test' };
const BENCH: Setting = { ...IDLE, rig: 'pump-bench' };

function networkOf(known: Known): FaultyNetwork {
  const book = oiledBench({ measured: known === 'measured' }).book();
  const network = faultyNetwork(book, reckoningOf(book), known);
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  return network.value;
}

const strip = networkOf('before-strip');
const families = faultFamilies(strip.circuit, 'before-strip', ['gauge']);
const family = (id: string) => {
  const found = families.find((one) => one.id === id);
  if (!found) throw new Error(`no family ${id}`);
  return found;
};
const with_ = (id: string, u: number) => {
  const { severity, variants } = family(id);
  return variants[0]!.changes(severity ? severityAt(severity, u) : 0);
};

/** The circuit through the general solver, with some of its parameters replaced. */
function plainly(setting: Setting, parameters: Record<string, number> = {}, fluid?: unknown): number {
  const { circuit } = strip;
  const compiled = compiledNetwork({ ...circuit.input, ...(fluid !== undefined && { fluid }) });
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.issues));
  const solved = solvedNetwork(compiled.value, { ...setting, parameters });
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  return solved.value.pressures[circuit.gauge]!;
}

describe('the circuit with a fault in it', () => {
  const as = (id: string) => strip.circuit.network.parameters[id]!;

  it('without one is the circuit', () => {
    for (const setting of [IDLE, FAST, { ...IDLE, temperature: COLD }])
      expect(strip.read(setting) / plainly(setting)).toBeCloseTo(1, 4);
  });

  it('has every clearance of a group wider by the factor', () => {
    const wide = plainly(IDLE, {
      'main-1.radial_clearance': 2 * as('main-1.radial_clearance'),
      'main-2.radial_clearance': 2 * as('main-2.radial_clearance'),
    });
    const [mains] = clearanceGroups(strip.circuit, 'before-strip').filter(
      ({ name }) => name === 'main bearings',
    );
    expect(mains!.parameters).toEqual(['main-1.radial_clearance', 'main-2.radial_clearance']);
    const factors = Object.fromEntries(mains!.parameters.map((name) => [name, 2]));
    expect(strip.read(IDLE, { factors }) / wide).toBeCloseTo(1, 4);
  });

  it('has thinner oil by thinner oil', () => {
    const fluid = { kv40: '46.5 mm2/s', kv100: '5.4 mm2/s', density15: '885 kg/m3' };
    // Not to the last digit: half of the viscosity at two temperatures is not half between them.
    expect(strip.read(IDLE, { viscosity: 0.5 }) / plainly(IDLE, {}, fluid)).toBeCloseTo(1, 2);
    expect(strip.read({ ...IDLE, renewed: 'oil' }, { viscosity: 0.5 })).toBeCloseTo(strip.read(IDLE), 2);
  });

  it('takes air from what the pump sweeps', () => {
    const swept = plainly(IDLE, { 'pump.displacement': 0.7 * as('pump.displacement') });
    expect(strip.read(IDLE, { air: 0.3 }) / swept).toBeCloseTo(1, 4);
  });

  it('lets a blocked pickup pass at idle what it does not at speed', () => {
    const changes = { ceiling: 0.28 };
    expect(strip.read(IDLE, changes) / strip.read(IDLE)).toBeGreaterThan(0.97);
    expect(strip.read(FAST, changes)).toBeLessThan(0.95 * strip.read(FAST));
  });

  it('at its worst lowers the gauge, whatever it is, but for a spring too strong and a blocked jet', () => {
    for (const { id, kind } of families) {
      if (['nothing', 'gauge', 'spring', 'restrictor-blocked'].includes(kind)) continue;
      const u =
        kind === 'worn-throughout' ||
        id.includes(':') ||
        kind === 'lost-plug' ||
        kind === 'relief-open' ||
        kind === 'suction-air' ||
        kind === 'restrictor-lost'
          ? 1
          : 0;
      expect(strip.read(FAST, with_(id, u)), id).toBeLessThan(strip.read(FAST));
    }
    expect(strip.read(FAST, with_('spring', 1))).toBeGreaterThan(strip.read(FAST));
    expect(strip.read(IDLE, with_('restrictor-blocked', 0))).toBeGreaterThan(strip.read(IDLE));
  });

  it('a spring changes nothing where the valve is shut, and a sound valve put in takes its fault away', () => {
    expect(strip.read(IDLE, with_('spring', 1))).toBeCloseTo(strip.read(IDLE), 1);
    const stuck = with_('relief-open', 1);
    expect(strip.read(IDLE, stuck)).toBeLessThan(0.5 * strip.read(IDLE));
    expect(strip.read({ ...IDLE, renewed: 'relief' }, stuck)).toBeCloseTo(strip.read(IDLE), 1);
  });
});

describe('the leak test and the pump on the bench', () => {
  it('the vessel measures what the engine passes at its pressure, the pump has no part in it', () => {
    const cold = { ...VESSEL, temperature: COLD };
    // By hand: a jet of 0.05 in and four bearings, each linear, at 2 bar; films no hotter than the oil.
    const jet =
      0.62 * (Math.PI / 4) * (0.05 * 0.0254) ** 2 * Math.sqrt((2 * VESSEL_PRESSURE) / (885 - 0.65 * 5));
    expect(strip.read(cold)).toBeGreaterThan(jet * 0.99);
    expect(strip.read(VESSEL)).toBeGreaterThan(strip.read(cold));
    for (const id of ['pump-faces:pump ends', 'pump-tips:pump tips', 'suction-air', 'pickup'])
      expect(strip.read(VESSEL, with_(id, 0.9)) / strip.read(VESSEL), id).toBeCloseTo(1, 6);
    const worn = { factors: { 'main-1.radial_clearance': 2 } };
    const bearing = (strip.read(VESSEL, worn) - strip.read(VESSEL)) / 7;
    // One main alone: π D c³ (1 + 1.5 ε²) p/(6 μ l), μ of the oil at 93 °C about 12.5 mm²/s × 837 kg/m³.
    const byHand =
      (Math.PI * 2.5 * 0.0254 * (0.001 * 0.0254) ** 3 * (1 + 1.5 * 0.36) * VESSEL_PRESSURE) /
      (6 * 12.5e-6 * 837 * 0.6 * 0.0254);
    expect(Math.abs(bearing / byHand - 1)).toBeLessThan(0.05);
  });

  it('the pump on the bench knows nothing of bearings, and slips by its own clearances', () => {
    const sound = strip.read(BENCH);
    expect(strip.read(BENCH, with_('bearings:main bearings', 1)) / sound).toBeCloseTo(1, 6);
    expect(strip.read(BENCH, with_('lost-plug', 1)) / sound).toBeCloseTo(1, 6);
    expect(strip.read(BENCH, with_('pump-faces:pump ends', 0.8))).toBeLessThan(0.9 * sound);
  });
});

describe('the families of a circuit', () => {
  it('are those that the circuit can have, named for what restores them', () => {
    expect(families.map(({ id }) => id)).toEqual([
      'nothing',
      'worn-throughout',
      'pump-faces:pump ends',
      'pump-tips:pump tips',
      'bearings:main bearings',
      'bearings:rod bearings',
      'relief-open',
      'spring',
      'thin-oil',
      'suction-air',
      'pickup',
      'lost-plug',
      'restrictor-lost',
      'restrictor-blocked',
      'gauge',
    ]);
  });

  it('are less likely to be worn where the clearances were measured, and nothing is worn throughout', () => {
    const measured = networkOf('measured');
    const after = faultFamilies(measured.circuit, 'measured', ['gauge']);
    expect(after.some(({ kind }) => kind === 'worn-throughout')).toBe(false);
    const prior = (of: typeof families, id: string) => of.find((one) => one.id === id)!.prior;
    expect(prior(after, 'bearings:main bearings')).toBeLessThan(
      prior(families, 'bearings:main bearings') / 2,
    );
    expect(prior(after, 'nothing')).toBeGreaterThan(2 * prior(families, 'nothing'));
    expect(after.reduce((sum, one) => sum + one.prior, 0)).toBeCloseTo(1, 12);
    const doubts = (known: Known) =>
      doubtsOf((known === 'measured' ? measured : strip).circuit, known).map(({ id }) => id);
    expect(doubts('before-strip')).toContain('bearings:main bearings');
    expect(doubts('measured')).not.toContain('bearings:main bearings');
    expect(doubts('measured')).toContain('spring');
  });
});

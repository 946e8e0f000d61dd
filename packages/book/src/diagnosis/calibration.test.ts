import { describe, expect, it } from 'vitest';
import { oiledBench, reckoningOf } from '../testing/oiled-sheet.ts';
import { calibration } from './calibration.ts';
import { faultyNetwork } from './diagnosis.ts';
import { type Doubt, doubtsOf, OWN_SHARE } from './doubts.ts';
import type { FaultyNetwork, Known } from './faulty-network.ts';
import type { GaugeEvidence } from './gauge-evidence.ts';

const PSI = 6894.757;
const RPM = Math.PI / 30;
const HOT = 273.15 + 93;

function networkOf(known: Known): FaultyNetwork {
  const book = oiledBench({ measured: known === 'measured' }).book();
  const network = faultyNetwork(book, reckoningOf(book), known);
  if (!network.ok) throw new Error(JSON.stringify(network.issues));
  return network.value;
}

const evidence = (rpm: number, pressure: number, u: number, temperature = HOT): GaugeEvidence => ({
  entry: `${rpm}`,
  said: { pressure: '', speed: '', instrument: 'gauge', when: 'as-found' },
  pressure,
  speed: rpm * RPM,
  temperature,
  grade: 'thin',
  instrument: 'gauge',
  u,
  common: 0.5,
});

const WANTED = [600, 750, 900].map((rpm) => ({ speed: rpm * RPM, temperature: HOT, grade: 'thin' }));

describe('the assumed constants after gauge readings', () => {
  const network = networkOf('measured');
  const doubts = doubtsOf(network.circuit, 'measured');

  it('are as assumed without readings, and with a gauge worth nothing', () => {
    const none = calibration(network, doubts, [], WANTED);
    const blind = calibration(network, doubts, [evidence(600, 20 * PSI, 1e5 * PSI)], WANTED);
    for (const { constants, pressures } of [none, blind]) {
      expect(constants.length).toBe(4);
      for (const { z } of constants) {
        expect(z.value).toBeCloseTo(0, 3);
        expect(z.u).toBeCloseTo(1, 4);
      }
      for (const { uncalibrated, calibrated } of pressures) {
        expect(calibrated.value / uncalibrated.value).toBeCloseTo(1, 3);
        expect(calibrated.u / uncalibrated.u).toBeCloseTo(1, 2);
      }
    }
  });

  it('one constant and one reading come out as by hand', () => {
    // Before strip nothing is measured, so only the one doubt, the prediction’s own and the gauge are there.
    const bare = networkOf('before-strip');
    const only: Doubt = {
      id: 'swept',
      name: 'swept volume',
      words: '±2 %',
      constant: { factorAt: (z) => 1 + 0.02 * z },
      at: (z) => ({ factors: { 'pump.displacement': 1 + 0.02 * z } }),
    };
    const setting = { rig: 'engine' as const, speed: 600 * RPM, temperature: HOT, grade: 'thin' };
    const p = bare.read(setting);
    const slope = (bare.read(setting, {}, [only.at(1)]) - bare.read(setting, {}, [only.at(-1)])) / 2;
    const u = 0.5 * PSI;
    const read = p + 1.5 * slope;
    const { constants, pressures } = calibration(bare, [only], [evidence(600, read, u)], [WANTED[0]!]);
    const own = OWN_SHARE * p;
    const total = slope ** 2 + own ** 2 + u ** 2;
    // The own doubt is a share of the prediction, which moves with z: a hundredth or two is allowed for that.
    expect(Math.abs(constants[0]!.z.value - (1.5 * slope * slope) / total)).toBeLessThan(0.02);
    expect(Math.abs(constants[0]!.z.u - Math.sqrt(1 - slope ** 2 / total))).toBeLessThan(0.02);
    expect(pressures[0]!.uncalibrated.value).toBeCloseTo(p, 3);
    expect(pressures[0]!.calibrated.value / (p + slope * constants[0]!.z.value)).toBeCloseTo(1, 3);
    expect(pressures[0]!.uncalibrated.u / Math.hypot(slope, own)).toBeCloseTo(1, 2);
  });

  it('bring the prediction to what a good gauge shows, with less doubt, and leave the plain one beside it', () => {
    const leak = doubts.find(({ id }) => id === 'bearing-leak')!;
    const truth = (rpm: number) =>
      network.read({ rig: 'engine', speed: rpm * RPM, temperature: HOT, grade: 'thin' }, {}, [leak.at(2)]);
    const readings = [600, 700, 800, 900].map((rpm) => evidence(rpm, truth(rpm), 0.05 * PSI));
    const { pressures, constants, distance } = calibration(network, doubts, readings, WANTED);
    for (const { speed, uncalibrated, calibrated } of pressures) {
      const real = truth(speed / RPM);
      expect(Math.abs(calibrated.value / real - 1)).toBeLessThan(
        0.25 * Math.abs(uncalibrated.value / real - 1),
      );
      expect(calibrated.u).toBeLessThan(0.75 * uncalibrated.u);
      expect(Math.abs(calibrated.value - real)).toBeLessThan(2 * calibrated.u);
    }
    // Lower pressure: something leaks more than assumed, and which of them the gauge cannot say.
    expect(constants.find(({ doubt }) => doubt.id === 'bearing-leak')!.z.value).toBeGreaterThan(0.1);
    expect(constants.find(({ doubt }) => doubt.id === 'pump-slip')!.z.value).toBeGreaterThan(0.1);
    for (const { z } of constants) expect(z.u).toBeLessThanOrEqual(1);
    expect(distance).toBeGreaterThan(0);
  });

  it('readings far from anything the constants allow lie at a distance that is said', () => {
    const p = network.read({ rig: 'engine', speed: 600 * RPM, temperature: HOT, grade: 'thin' });
    const near = calibration(network, doubts, [evidence(600, p, 0.5 * PSI)], WANTED);
    const far = calibration(network, doubts, [evidence(600, 0.2 * p, 0.5 * PSI)], WANTED);
    expect(near.distance).toBeLessThan(0.5);
    expect(far.distance).toBeGreaterThan(2);
  });
});

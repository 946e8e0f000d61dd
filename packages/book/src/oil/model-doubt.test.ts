import { covariance, exact, standardUncertainty } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { calibration } from '../diagnosis/calibration.ts';
import { faultyNetwork } from '../diagnosis/diagnosis.ts';
import { doubtsOf, OWN_SHARE } from '../diagnosis/doubts.ts';
import { oiledBench, reckoningOf } from '../testing/oiled-sheet.ts';
import { withModelDoubt } from './model-doubt.ts';
import { gaugePressure } from './pressure.ts';

const RPM = Math.PI / 30;
const HOT = 273.15 + 93;

describe('the doubt of the model itself', () => {
  const book = oiledBench({ measured: true }).book();
  const found = faultyNetwork(book, reckoningOf(book), 'measured');
  if (!found.ok) throw new Error(JSON.stringify(found.issues));
  const network = found.value;
  const { circuit } = network;
  const predicted = (rpm: number) => {
    const running = { speed: rpm * RPM, temperature: HOT };
    const read = gaugePressure(circuit, running, { as: 'measured' });
    return {
      value: read.value,
      all: withModelDoubt(circuit, running, read),
      doubted: withModelDoubt(circuit, running, exact(read.value)),
    };
  };

  it('is what the weighing of gauge readings takes before any is read', () => {
    const wanted = [{ speed: 600 * RPM, temperature: HOT, grade: 'thin' }];
    const doubts = doubtsOf(circuit, 'measured');
    const { pressures } = calibration(network, doubts, [], wanted);
    // That integrates over the constants instead of taking their slopes.
    expect(standardUncertainty(predicted(600).all) / pressures[0]!.uncalibrated.u).toBeCloseTo(1, 1);
  });

  it('is shared by two conditions as far as the constants go, and each has its own part besides', () => {
    const [idle, fast] = [predicted(600), predicted(900)];
    const constants = (q: typeof idle.doubted) => q.terms.filter(({ source }) => !source.includes('rad/s'));
    const byHand = constants(idle.doubted).reduce(
      (sum, { source, u }) =>
        sum + u * (constants(fast.doubted).find((one) => one.source === source)?.u ?? 0),
      0,
    );
    expect(byHand).toBeGreaterThan(0);
    expect(covariance(idle.doubted, fast.doubted) / byHand).toBeCloseTo(1, 9);
    const own = idle.doubted.terms.find(({ source }) => source.includes('rad/s'));
    expect(own?.u).toBeCloseTo(OWN_SHARE * idle.value, 6);
  });
});

import { factorInPlace, failed, type Outcome, ok, unwhitenInPlace, whitenInPlace } from '@fettle/core';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Book } from '../fold/book.ts';
import type { Running } from '../oil/pressure.ts';
import { faultyNetwork, noBalance, observed } from './diagnosis.ts';
import { type Doubt, doubtsOf, OWN_SHARE } from './doubts.ts';
import type { FaultyNetwork } from './faulty-network.ts';
import { type GaugeEvidence, gaugeEvidence, type When } from './gauge-evidence.ts';
import { measuredDoubt, type Observable } from './hypotheses.ts';
import { sheetRunning } from './next-tests.ts';
import { gaugeCovariance } from './posterior.ts';

/** One assumed constant of the model, before and after the readings. */
export interface CalibratedConstant {
  readonly doubt: Doubt;
  /** In deviations of what was assumed: beforehand 0 ±1. */
  readonly z: { readonly value: number; readonly u: number };
  /** As a factor on what was assumed, or a difference in kelvin, with its standard uncertainty. */
  readonly value: number;
  readonly u: number;
  readonly assumed: { readonly value: number; readonly u: number };
}

/** A predicted pressure [Pa] and its standard uncertainty, the assumed constants’ doubt in it. */
interface PressureDoubt {
  readonly value: number;
  readonly u: number;
}

export interface CalibratedPressure extends Running {
  /** With the constants as assumed; always shown beside the other. */
  readonly uncalibrated: PressureDoubt;
  readonly calibrated: PressureDoubt;
}

export interface Calibration {
  readonly readings: readonly GaugeEvidence[];
  readonly constants: readonly CalibratedConstant[];
  readonly pressures: readonly CalibratedPressure[];
  /** How far the readings lie from what the assumed constants allow, in deviations for each reading. */
  readonly distance: number;
}

const ROUNDS = 6;
const HALF_STEP = 0.5;
/** Readings farther off than this, in deviations a reading, are no matter of constants. */
export const BEYOND_CALIBRATION = 2;

/**
 * The assumed constants and the predicted pressures after the gauge readings: normal beforehand and in their errors,
 * the circuit taken as straight about the best answer and straightened anew there until it stays.
 *
 *     z = z₀ + K (y − h(z) + H (z − z₀)),  K = Hᵀ (H Hᵀ + R)⁻¹
 *
 * What was measured is in doubt as well, so that a misread clearance is not laid on the constants.
 *
 * @param doubts   those with a `constant` are calibrated
 * @param wanted   where pressures are asked for
 * @throws RangeError  when the network finds no balance
 * @source definition; Bayes’ theorem for normal doubts (Gauss and Newton’s steps)
 */
export function calibration(
  network: FaultyNetwork,
  doubts: readonly Doubt[],
  readings: readonly GaugeEvidence[],
  wanted: readonly (Running & { readonly grade: string })[],
): Calibration {
  const n = readings.length;
  const observables: Observable[] = [
    ...observed(readings),
    ...wanted.map(({ speed, temperature, grade }) => ({
      setting: { rig: 'engine' as const, speed, temperature, grade },
      u: () => 0,
      common: 0,
      own: OWN_SHARE,
    })),
  ];
  const total = observables.length;
  const values = readings.map(({ pressure }) => pressure);
  const misread = measuredDoubt(network, observables);
  const gauge = gaugeCovariance(observables.slice(0, n), values);
  const at = (z: readonly number[]) => {
    const departures = doubts.map((doubt, d) => doubt.at(z[d]!));
    return Float64Array.from(observables, ({ setting }) => network.read(setting, {}, departures));
  };
  const slopesAt = (z: readonly number[]) =>
    doubts.map((_, d) => {
      const up = at(z.map((value, i) => (i === d ? value + HALF_STEP : value)));
      const down = at(z.map((value, i) => (i === d ? value - HALF_STEP : value)));
      return up.map((high, i) => (high - down[i]!) / (2 * HALF_STEP));
    });
  /** Everything but the constants: misread clearances, each prediction’s own, and between readings the gauge. */
  const restOf = (predicted: Float64Array, i: number, j: number): number =>
    (misread[i * total + j]! + (i === j ? OWN_SHARE ** 2 : 0)) * predicted[i]! * predicted[j]! +
    (i < n && j < n ? gauge[i * n + j]! : 0);
  const uncalibrated = at(doubts.map(() => 0));
  let z = doubts.map(() => 0);
  let predicted = uncalibrated;
  let slopes = slopesAt(z);
  const spread = (i: number) => {
    const ofConstants = slopes.reduce((sum, slope) => sum + slope[i]! ** 2, 0);
    return Math.sqrt(ofConstants + restOf(predicted, i, i));
  };
  const before = wanted.map((_, k) => ({ value: uncalibrated[n + k]!, u: spread(n + k) }));
  let distance = 0;
  let conditioned = conditionedOn(n, values, predicted, slopes, z, restOf);
  for (let round = 0; round < ROUNDS && n > 0; round++) {
    if (round === 0) distance = Math.sqrt(conditioned.squared / n);
    const next = doubts.map((_, d) => conditioned.update(slopes[d]!));
    const moved = Math.max(...next.map((value, d) => Math.abs(value - z[d]!)), 0);
    z = next;
    predicted = at(z);
    slopes = slopesAt(z);
    conditioned = conditionedOn(n, values, predicted, slopes, z, restOf);
    if (moved < 1e-4) break;
  }
  return {
    readings,
    constants: doubts.flatMap((doubt, d): CalibratedConstant[] => {
      if (!doubt.constant) return [];
      const u = Math.sqrt(Math.max(0, 1 - conditioned.explained(slopes[d]!)));
      const scale = scaleOf(doubt);
      const value = n > 0 ? z[d]! : 0;
      return [
        {
          doubt,
          z: { value, u },
          value: scale(value),
          u: (scale(value + u) - scale(value - u)) / 2,
          assumed: { value: scale(0), u: (scale(1) - scale(-1)) / 2 },
        },
      ];
    }),
    pressures: wanted.map(({ speed, temperature }, k) => {
      const i = n + k;
      const cross = Float64Array.from(
        { length: n },
        (_, j) => slopes.reduce((sum, slope) => sum + slope[i]! * slope[j]!, 0) + restOf(predicted, i, j),
      );
      const u2 = spread(i) ** 2 - conditioned.explained(cross);
      return {
        speed,
        temperature,
        uncalibrated: before[k]!,
        calibrated:
          n === 0
            ? before[k]!
            : {
                // The constants' part is in the prediction already; what was misread moves it the rest of the way.
                value: predicted[i]! + conditioned.update(cross) - constantsPart(slopes, z, i),
                u: Math.sqrt(Math.max(0, u2)),
              },
      };
    }),
    distance,
  };
}

/**
 * The model’s assumed constants set by the gauge readings of an engine that was measured, and its pressures with them.
 *
 * @param wanted  where pressures are asked for; the sheet’s conditions when absent
 */
export function calibrated(
  book: Book,
  reckoning: Reckoning,
  when: When,
  wanted?: readonly Running[],
): Outcome<Calibration> {
  const network = faultyNetwork(book, reckoning, 'measured');
  if (!network.ok) return network;
  const oil = book.sheet!.oil!;
  try {
    return ok(
      calibration(
        network.value,
        doubtsOf(network.value.circuit, 'measured'),
        gaugeEvidence(book, when).readings,
        (wanted ?? sheetRunning(oil)).map((running) => ({ ...running, grade: oil.fill })),
      ),
    );
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed(noBalance(error));
  }
}

const scaleOf = ({ constant }: Doubt): ((z: number) => number) =>
  constant === undefined ? (z) => z : 'factorAt' in constant ? constant.factorAt : constant.kelvinAt;

const constantsPart = (slopes: readonly Float64Array[], z: readonly number[], i: number): number =>
  slopes.reduce((sum, slope, d) => sum + slope[i]! * z[d]!, 0);

/** The readings’ own doubt, factored, and what they say of anything that varies with them. */
function conditionedOn(
  n: number,
  values: readonly number[],
  predicted: Float64Array,
  slopes: readonly Float64Array[],
  z: readonly number[],
  restOf: (predicted: Float64Array, i: number, j: number) => number,
) {
  const s = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      s[i * n + j] = restOf(predicted, i, j) + slopes.reduce((sum, slope) => sum + slope[i]! * slope[j]!, 0);
  factorInPlace(s, n);
  const r = Float64Array.from(values, (value, i) => value - predicted[i]! + constantsPart(slopes, z, i));
  whitenInPlace(s, r, n);
  const squared = r.reduce((sum, x) => sum + x * x, 0);
  const solved = r.slice();
  unwhitenInPlace(s, solved, n);
  return {
    squared,
    /** Cᵀ S⁻¹ r: how far what varies with the readings by C has moved. */
    update: (c: Float64Array): number => solved.reduce((sum, x, i) => sum + x * c[i]!, 0),
    /** Cᵀ S⁻¹ C: how much of its variance the readings take away. */
    explained: (c: Float64Array): number => {
      const white = c.slice(0, n);
      whitenInPlace(s, white, n);
      return white.reduce((sum, x) => sum + x * x, 0);
    },
  };
}

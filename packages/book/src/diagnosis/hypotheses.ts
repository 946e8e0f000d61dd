import { covariance, propagated, type Uncertain } from '@fettle/core';
import type { Doubt } from './doubts.ts';
import { evenCurve } from './even-curve.ts';
import { type Family, type GaugeFault, severityAt, type Variant } from './family.ts';
import { baseOf, type FaultyNetwork, type Setting } from './faulty-network.ts';

/** Something that was read, or may be: where, and how well. */
export interface Observable {
  readonly setting: Setting;
  /** The gauge; readings of one gauge share a part of its error. */
  readonly instrument?: string;
  /** Standard uncertainty of the reading [Pa or m³/s] for what is read. */
  readonly u: (value: number) => number;
  /** Share of the reading's variance that all readings of this gauge have in common. */
  readonly common: number;
  /** Standard deviation of the prediction by itself, as a share of it. */
  readonly own: number;
}

/** One fault at one severity, among those that stand for its whole spread. */
export interface Hypothesis {
  /** Index into the families. */
  readonly family: number;
  readonly severity: number;
  /** Probability within all, before any reading. */
  readonly prior: number;
  readonly gauge?: GaugeFault;
  /** What each observable would show. */
  readonly predicted: Float64Array;
  /** d ln predicted / d doubt, doubt by doubt, each over all observables. */
  readonly slopes: readonly Float64Array[];
}

export interface Hypotheses {
  readonly families: readonly Family[];
  readonly doubts: readonly Doubt[];
  readonly observables: readonly Observable[];
  readonly all: readonly Hypothesis[];
  /** Relative covariance that the doubt of the measured clearances leaves, observables squared, row by row. */
  readonly measured: Float64Array;
  /** Degrees of freedom of the readings’ distribution about a prediction; infinite: normal. */
  readonly tails: number;
}

/**
 * Where clearances are not measured their doubt is wide, and straight slopes leave out more the farther out one
 * goes: the tails are taken heavy, as a t of so many degrees. Chosen so that probabilities keep their word in trials.
 */
export const UNMEASURED_TAILS = 6;

/** At how many places a severity is solved, its slopes taken, and weighed (an odd number, for Simpson's rule). */
export interface Steps {
  readonly solved: number;
  /** Slopes change slowly along a severity. */
  readonly slopes: number;
  readonly weighed: number;
}
const STEPS: Steps = { solved: 9, slopes: 3, weighed: 41 };
/** Slopes are taken over a whole deviation to either side. */
const STEP = 1;

/**
 * One slope in place of two, of the same spread: a valve about to open makes a pressure steep to one side and flat to
 * the other, and the mean of both would be too sure of it.
 */
const spreadSlope = (up: number, down: number): number =>
  Math.sign(up + down) * Math.sqrt((up * up + down * down) / 2);

/** Everything that may be wrong, each with what would then be read. Depends on no reading's value. */
export function hypothesesOf(
  network: FaultyNetwork,
  families: readonly Family[],
  doubts: readonly Doubt[],
  observables: readonly Observable[],
  steps: Steps = STEPS,
): Hypotheses {
  const all = families.flatMap((family, index) =>
    family.variants.flatMap((variant) =>
      alongSeverity(network, family, index, variant, doubts, observables, steps),
    ),
  );
  const tails = network.known === 'measured' ? Number.POSITIVE_INFINITY : UNMEASURED_TAILS;
  return { families, doubts, observables, all, measured: measuredDoubt(network, observables), tails };
}

function alongSeverity(
  network: FaultyNetwork,
  family: Family,
  index: number,
  variant: Variant,
  doubts: readonly Doubt[],
  observables: readonly Observable[],
  { solved, slopes: sloped, weighed }: Steps,
): Hypothesis[] {
  const { severity } = family;
  const prior = family.prior / family.variants.length;
  const shared = { family: index, ...(variant.gauge && { gauge: variant.gauge }) };
  const readAt = (u: number): Float64Array => {
    const changes = variant.changes(severity ? severityAt(severity, u) : 0);
    return Float64Array.from(observables, ({ setting }) => network.read(setting, changes));
  };
  const slopesAt = (u: number, predicted: Float64Array): Float64Array[] => {
    const changes = variant.changes(severity ? severityAt(severity, u) : 0);
    return doubts.map((doubt) => {
      const [more, less] = [[doubt.at(STEP)], [doubt.at(-STEP)]];
      return Float64Array.from(observables, ({ setting }, i) =>
        spreadSlope(
          Math.log(network.read(setting, changes, more) / predicted[i]!) / STEP,
          Math.log(predicted[i]! / network.read(setting, changes, less)) / STEP,
        ),
      );
    });
  };
  if (!severity) {
    const predicted = readAt(0);
    return [{ ...shared, severity: 0, prior, predicted, slopes: slopesAt(0, predicted) }];
  }
  const places = solved;
  const rows = Array.from({ length: places }, (_, i) => readAt(i / (places - 1)));
  const curves = observables.map((_, i) => evenCurve(rows.map((row) => Math.log(row[i]!))));
  // Where any one of several holes may be the wrong one, none changes much: one slope does for all its severities.
  const sloping = family.variants.length > 1 ? 1 : Math.min(sloped, places);
  const slopeRows = Array.from({ length: sloping }, (_, k) => {
    const at = Math.round((sloping > 1 ? k / (sloping - 1) : 0.5) * (places - 1));
    return slopesAt(at / (places - 1), rows[at]!);
  });
  const simpson = simpsonWeights(weighed);
  return Array.from({ length: weighed }, (_, i): Hypothesis => {
    const u = i / (weighed - 1);
    return {
      ...shared,
      severity: severityAt(severity, u),
      prior: prior * simpson[i]!,
      predicted: Float64Array.from(curves, (curve) => Math.exp(curve(u))),
      slopes: doubts.map((_, d) => between(slopeRows, d, u)),
    };
  });
}

/** Straight between the places at which slopes were taken. */
function between(rows: readonly (readonly Float64Array[])[], doubt: number, u: number): Float64Array {
  if (rows.length === 1) return rows[0]![doubt]!;
  const place = u * (rows.length - 1);
  const i = Math.min(Math.floor(place), rows.length - 2);
  const [a, b] = [rows[i]![doubt]!, rows[i + 1]![doubt]!];
  return a.map((value, k) => value + (place - i) * (b[k]! - value));
}

/** Weights that sum to 1 over an odd number of even places. @source definition; Simpson's rule */
function simpsonWeights(points: number): number[] {
  const step = 1 / (points - 1);
  return Array.from({ length: points }, (_, i) =>
    i === 0 || i === points - 1 ? step / 3 : i % 2 === 1 ? (4 * step) / 3 : (2 * step) / 3,
  );
}

/** What the readings of the clearances leave open, to first order, about the circuit without a fault. */
export function measuredDoubt(network: FaultyNetwork, observables: readonly Observable[]): Float64Array {
  const n = observables.length;
  const doubt = new Float64Array(n * n);
  const measured = network.circuit.parameters.filter(({ measured: known }) => known !== undefined);
  if (network.known === 'before-strip' || measured.length === 0) return doubt;
  const logs = observables.map(
    ({ setting }): Uncertain =>
      propagated(
        (values) =>
          Math.log(
            network.read(setting, {}, [
              {
                factors: Object.fromEntries(
                  measured.map((one, i) => [
                    one.name,
                    Math.max(values[i]!, one.nominal * 1e-4) / baseOf(one, 'measured'),
                  ]),
                ),
              },
            ]),
          ),
        measured.map((one) => one.measured!),
      ),
  );
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) doubt[i * n + j] = covariance(logs[i]!, logs[j]!);
  return doubt;
}

import { failed, type Issue, normalCdf, type Outcome, ok, parseQuantity } from '@fettle/core';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Book } from '../fold/book.ts';
import { type FilledCircuit, filledCircuit } from '../oil/circuit.ts';
import type { SpecSheet } from '../sheet/sheet.ts';
import { type Assumption, assumptionsOf } from './assumptions.ts';
import { doubtsOf, OWN_SHARE } from './doubts.ts';
import { type RankedTest, rankedTests } from './expected-information.ts';
import { faultFamilies } from './families.ts';
import type { Family } from './family.ts';
import { FaultyNetwork, type Known } from './faulty-network.ts';
import { type GaugeEvidence, gaugeEvidence, type LeftOut, type When } from './gauge-evidence.ts';
import { type Hypotheses, hypothesesOf, type Observable, type Steps } from './hypotheses.ts';
import { benchJet, testPlans } from './next-tests.ts';
import { fittedReadings, type Weighed, weighed } from './posterior.ts';
import { notToldApart } from './told-apart.ts';

export interface DiagnosedFamily {
  readonly family: Family;
  readonly probability: number;
  /** How much better or worse than “nothing wrong” it foretold the readings. */
  readonly bayesFactor: number;
  /** What the readings leave of its severity: middle, and where 90 % of it lies. */
  readonly severity?: { readonly middle: number; readonly from: number; readonly to: number };
  /** What it would have a perfect gauge show, everything else in doubt set as the readings want it [Pa]. */
  readonly fitted: readonly number[];
}

export interface Diagnosis {
  readonly known: Known;
  readonly when: When;
  readonly readings: readonly GaugeEvidence[];
  readonly leftOut: readonly LeftOut[];
  /** Likeliest first. */
  readonly families: readonly DiagnosedFamily[];
  /** Sets that the readings cannot tell apart, likeliest first. */
  readonly alike: readonly (readonly Family[])[];
  /** Probability that the best single fault strays this far from the readings; small: perhaps two faults at once. */
  readonly fit: number;
  /** Most telling first. */
  readonly tests: readonly RankedTest[];
  /** The families in the order in which outcomes of tests give their probabilities. */
  readonly order: readonly Family[];
  readonly assumptions: readonly Assumption[];
}

/** One fault that strays so far from the readings is doubted. */
export const STRAINED = 0.02;

/** The network that faults are tried on, once for every grade that may be asked about. */
export function faultyNetwork(book: Book, reckoning: Reckoning, known: Known): Outcome<FaultyNetwork> {
  const oil = book.sheet?.oil;
  const first = filledCircuit(book, reckoning);
  if (!first.ok) return first;
  const circuits = new Map<string, FilledCircuit>([[oil!.fill, first.value]]);
  for (const grade of Object.keys(oil!.grades)) {
    if (circuits.has(grade)) continue;
    const filled = filledCircuit(book, reckoning, grade);
    if (!filled.ok) return filled;
    circuits.set(grade, filled.value);
  }
  const speeds = oil!.speeds.flatMap((text) => {
    const speed = parseQuantity(text, 'speed');
    return speed.ok ? [speed.value.value] : [];
  });
  const [slowest, fastest] = [Math.min(...speeds), Math.max(...speeds)];
  const plain = new FaultyNetwork(circuits, known, fastest);
  return ok(new FaultyNetwork(circuits, known, fastest, benchJet(plain, slowest)));
}

/** The readings as observables of the network. */
export const observed = (readings: readonly GaugeEvidence[]): Observable[] =>
  readings.map(({ speed, temperature, grade, instrument, u, common }) => ({
    setting: { rig: 'engine', speed, temperature, grade },
    instrument,
    u: () => u,
    common,
    own: OWN_SHARE,
  }));

/** A circuit that finds no balance with something changed in it. */
export const noBalance = (error: RangeError): Issue => ({
  code: 'oil/no-balance',
  at: '/oil/circuit',
  got: error.message,
  wanted: 'a circuit that can be solved with a fault in it',
  message: `The circuit could not be solved with a fault in it: ${error.message} Check the circuit’s sizes, and the speeds and temperatures of the gauge readings.`,
});

/**
 * What the gauge readings say about which fault it is, what they cannot say, and what would.
 *
 * @param known  whether the measured clearances count, or the engine is still in the vehicle
 */
export function diagnosed(
  book: Book,
  reckoning: Reckoning,
  { known, when, steps }: { known: Known; when: When; steps?: Steps },
): Outcome<Diagnosis> {
  const network = faultyNetwork(book, reckoning, known);
  if (!network.ok) return network;
  try {
    return ok(diagnosedOn(book.sheet!.oil!, network.value, gaugeEvidence(book, when), known, when, steps));
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed(noBalance(error));
  }
}

function diagnosedOn(
  oil: NonNullable<SpecSheet['oil']>,
  network: FaultyNetwork,
  { readings, leftOut }: ReturnType<typeof gaugeEvidence>,
  known: Known,
  when: When,
  steps: Steps | undefined,
): Diagnosis {
  const gauges = [...new Set(readings.map(({ instrument }) => instrument))];
  const families = faultFamilies(network.circuit, known, gauges);
  const doubts = doubtsOf(network.circuit, known);
  const plans = testPlans(oil, network, readings);
  const observables = observed(readings);
  const placed = plans.map((plan) => ({
    plan,
    observables: plan.probes.map(({ observable }) => observables.push(observable) - 1),
  }));
  const hypotheses = hypothesesOf(network, families, doubts, observables, steps);
  const values = readings.map(({ pressure }) => pressure);
  const after = weighed(hypotheses, values);
  const fitted = fittedReadings(hypotheses, after, values);
  return {
    known,
    when,
    readings,
    leftOut,
    families: families
      .map((family, f) => diagnosedFamily(hypotheses, after, family, f, fitted[f]!))
      .sort((a, b) => b.probability - a.probability),
    alike: notToldApart(hypotheses, after, fitted, values).map((group) => group.map((f) => families[f]!)),
    fit: values.length === 0 ? 1 : chiSquareTail(after.nearest, values.length),
    tests: rankedTests(hypotheses, after, values, placed),
    order: families,
    assumptions: assumptionsOf(families, doubts, known),
  };
}

/** Chance of a greater squared distance, n readings. @source wilson-hilferty-1931 */
function chiSquareTail(squared: number, n: number): number {
  const spread = 2 / (9 * n);
  return 1 - normalCdf((Math.cbrt(squared / n) - (1 - spread)) / Math.sqrt(spread));
}

function diagnosedFamily(
  { all, families }: Hypotheses,
  after: Weighed,
  family: Family,
  f: number,
  fitted: Float64Array,
): DiagnosedFamily {
  const nothing = families.findIndex(({ kind }) => kind === 'nothing');
  const mass = after.families[f]!;
  const own = all.flatMap(({ family: of, severity }, h) =>
    of === f ? [{ severity, share: mass > 0 ? after.weights[h]! / mass : 0 }] : [],
  );
  const sorted = own.toSorted((a, b) => a.severity - b.severity);
  const quantile = (p: number): number => {
    let sum = 0;
    for (const { severity, share } of sorted) {
      sum += share;
      if (sum >= p) return severity;
    }
    return sorted.at(-1)!.severity;
  };
  return {
    family,
    probability: mass,
    bayesFactor: Math.exp(after.evidence[f]! - after.evidence[nothing]!),
    ...(family.severity && {
      severity: { middle: quantile(0.5), from: quantile(0.05), to: quantile(0.95) },
    }),
    fitted: [...fitted],
  };
}

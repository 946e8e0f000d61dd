import { factorInPlace, mutualInformation, normalDensity, whitenInPlace } from '@fettle/core';
import type { Hypotheses } from './hypotheses.ts';
import type { Probe, TestPlan } from './next-tests.ts';
import { jointDoubt, type Weighed } from './posterior.ts';

/** What one range of outcomes would mean. */
export interface OutcomeMeaning {
  /** Edges of the range [Pa or m³/s]; absent where it is open, and where a look finds or does not. */
  readonly from?: number;
  readonly to?: number;
  readonly words?: string;
  /** Probability that the outcome falls here. */
  readonly chance: number;
  /** Probabilities of the families then, in the order of the families. */
  readonly families: readonly number[];
}

export interface RankedTest {
  readonly plan: TestPlan;
  /** How it is best taken; absent for a look. */
  readonly probe?: Probe;
  /** Information expected about which family it is [bit]. */
  readonly bits: number;
  readonly outcomes: readonly OutcomeMeaning[];
}

const POINTS = 240;
const REACH = 5;
const NEGLIGIBLE = 1e-5;
/** A range of outcomes less likely than this is told with its neighbour. */
const LEAST_CHANCE = 0.04;
/** Tests this near in information go by their work [bit]. */
const SAME = 0.02;

/**
 * The tests by what each is expected to tell, most first; those about as telling go by their work.
 *
 * @param values  readings taken, observables 0 to values.length − 1
 * @param placed  each test's probes as indices into the observables
 */
export function rankedTests(
  hypotheses: Hypotheses,
  after: Weighed,
  values: readonly number[],
  placed: readonly { readonly plan: TestPlan; readonly observables: readonly number[] }[],
): RankedTest[] {
  const tests = placed.map(({ plan, observables }): RankedTest => {
    if (plan.look) return looked(hypotheses, after, plan);
    const [best] = observables
      .map((observable, i) => ({
        probe: plan.probes[i]!,
        ...foreseen(hypotheses, after, values, observable),
      }))
      .sort((a, b) => b.bits - a.bits);
    return { plan, ...best! };
  });
  const rank = ({ bits }: RankedTest): number => Math.round(bits / SAME);
  return tests.sort((a, b) => rank(b) - rank(a) || a.plan.hours - b.plan.hours);
}

function looked({ families }: Hypotheses, after: Weighed, plan: TestPlan): RankedTest {
  const { finds, falsely, found, clear } = plan.look!;
  const yes = families.map(({ kind }) => finds[kind] ?? falsely);
  const no = yes.map((p) => 1 - p);
  const meaning = (words: string, chances: readonly number[]): OutcomeMeaning => {
    const joint = chances.map((p, f) => p * after.families[f]!);
    const chance = joint.reduce((a, b) => a + b, 0);
    return { words, chance, families: joint.map((p) => p / chance) };
  };
  return {
    plan,
    bits: mutualInformation(
      after.families,
      families.map((_, f) => [yes[f]!, no[f]!]),
      1,
    ),
    outcomes: [meaning(found, yes), meaning(clear, no)],
  };
}

/** Density of the outcome under each family, given the readings, and what it tells. */
function foreseen(
  hypotheses: Hypotheses,
  after: Weighed,
  values: readonly number[],
  observable: number,
): { bits: number; outcomes: OutcomeMeaning[] } {
  const { all, families } = hypotheses;
  const parts = all.flatMap((hypothesis, h) => {
    const weight = after.weights[h]!;
    if (!(weight > NEGLIGIBLE * after.families[hypothesis.family]!) || weight < NEGLIGIBLE ** 2) return [];
    return [{ family: hypothesis.family, weight, ...outcomeAfter(hypotheses, h, values, observable) }];
  });
  const low = Math.max(0, Math.min(...parts.map(({ mean, sd }) => mean - REACH * sd)));
  const high = Math.max(...parts.map(({ mean, sd }) => mean + REACH * sd));
  const step = (high - low) / (POINTS - 1);
  const densities = families.map(() => new Float64Array(POINTS));
  for (const { family, weight, mean, sd } of parts) {
    const density = densities[family]!;
    const scale = weight / sd;
    const first = Math.max(0, Math.floor((mean - REACH * sd - low) / step));
    const last = Math.min(POINTS - 1, Math.ceil((mean + REACH * sd - low) / step));
    for (let i = first; i <= last; i++) density[i]! += scale * normalDensity((low + i * step - mean) / sd);
  }
  // Normed on the grid: a density cut at zero, or finer than the grid, must still be one.
  densities.forEach((density) => {
    const mass = density.reduce((a, b) => a + b, 0) * step;
    if (mass > 0) for (let i = 0; i < POINTS; i++) density[i]! /= mass;
  });
  return {
    bits: mutualInformation(after.families, densities, step),
    outcomes: meanings(after.families, densities, low, step),
  };
}

/** The outcome under one hypothesis once the readings are known: conditional normal. */
function outcomeAfter(
  hypotheses: Hypotheses,
  h: number,
  values: readonly number[],
  observable: number,
): { mean: number; sd: number } {
  const hypothesis = hypotheses.all[h]!;
  const n = values.length;
  const indices = [...values.keys(), observable];
  const joint = jointDoubt(hypotheses, hypothesis, indices, (i) =>
    i < n ? values[i]! : hypothesis.predicted[observable]!,
  );
  // The factor of the joint doubt holds the conditional in its last row.
  factorInPlace(joint, n + 1);
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) l[i * n + j] = joint[i * (n + 1) + j]!;
  const r = Float64Array.from(values, (value, i) => value - hypothesis.predicted[i]!);
  whitenInPlace(l, r, n);
  let mean = hypothesis.predicted[observable]!;
  for (let i = 0; i < n; i++) mean += joint[n * (n + 1) + i]! * r[i]!;
  return { mean, sd: joint[n * (n + 1) + n]! };
}

interface Range {
  from: number;
  to: number;
  chance: number;
  /** Probability of outcome and family together. */
  joint: number[];
}

const leader = ({ joint }: Range): number => joint.indexOf(Math.max(...joint));

/** Ranges of the outcome by which family leads there. */
function meanings(
  prior: readonly number[],
  densities: readonly Float64Array[],
  low: number,
  step: number,
): OutcomeMeaning[] {
  const ranges: Range[] = [];
  const join = (into: Range, gone: Range): void => {
    into.from = Math.min(into.from, gone.from);
    into.to = Math.max(into.to, gone.to);
    into.chance += gone.chance;
    gone.joint.forEach((p, f) => {
      into.joint[f]! += p;
    });
  };
  for (let i = 0; i < POINTS; i++) {
    const joint = densities.map((density, f) => prior[f]! * density[i]! * step);
    const chance = joint.reduce((a, b) => a + b, 0);
    if (!(chance > 0)) continue;
    const here: Range = { from: i, to: i, chance, joint };
    const last = ranges.at(-1);
    if (last && leader(last) === leader(here)) join(last, here);
    else ranges.push(here);
  }
  for (let small = smallest(ranges); small >= 0; small = smallest(ranges)) {
    const into = small === 0 ? 1 : small - 1;
    join(ranges[into]!, ranges[small]!);
    ranges.splice(small, 1);
    for (let k = ranges.length - 1; k > 0; k--)
      if (leader(ranges[k]!) === leader(ranges[k - 1]!)) {
        join(ranges[k - 1]!, ranges[k]!);
        ranges.splice(k, 1);
      }
  }
  return ranges.map(({ from, to, joint, chance }, i) => ({
    ...(i > 0 && { from: low + (from - 0.5) * step }),
    ...(i < ranges.length - 1 && { to: low + (to + 0.5) * step }),
    chance,
    families: joint.map((p) => p / chance),
  }));
}

/** The least likely range, when it is too unlikely to stand alone. */
function smallest(ranges: readonly Range[]): number {
  if (ranges.length < 2) return -1;
  const least = Math.min(...ranges.map(({ chance }) => chance));
  return least < LEAST_CHANCE ? ranges.findIndex(({ chance }) => chance === least) : -1;
}

import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { failed, type Outcome, ok } from '../issue.ts';
import { type Draw, type Spread, spreadOf, standardDraw } from '../uncertainty/monte-carlo.ts';
import type { CompiledNetwork } from './compiled.ts';
import type { SumpConditions } from './conditions.ts';
import { type DrawnNetwork, drawnIssues, type Lever, leversOf } from './drawn.ts';
import { PreparedNetwork, REPEATED } from './prepared.ts';
import { conditionIssues, nodeIn, notConverged } from './running-issues.ts';

/** One running condition. */
export interface RunningPoint {
  /** Of the crank [rad/s] */
  readonly speed: number;
  /** Of the sump [K] */
  readonly temperature: number;
}

export interface TrialPlan {
  readonly drawn: DrawnNetwork;
  readonly running: readonly RunningPoint[];
  readonly seed: number;
  /** Trials first, first + 1, …: a trial depends on the seed and its own number alone, so parts can be shared out. */
  readonly first?: number;
  readonly trials: number;
  /** Trials delivered at a time. */
  readonly chunk?: number;
  /** Node whose pressure is wanted; the gauge's when not given. */
  readonly node?: string;
}

/** Some of the trials, plain data that a worker can post. */
export interface TrialChunk {
  readonly first: number;
  /** Trials made, the lost among them. */
  readonly trials: number;
  /** Pressure [Pa] of every trial kept, at each running condition in turn. */
  readonly pressures: Float64Array;
  /** Trials left out because somewhere no balance was found, or the drawn values exclude each other. */
  readonly lost: readonly number[];
  /** Values that were drawn beyond what can be, and held there. */
  readonly held: number;
}

const CHUNK = 200;

/**
 * Monte Carlo over a network: every source is drawn once a trial, whatever shares it, and the same trial is run
 * under every running condition. Delivered chunk by chunk while it runs.
 *
 * @source jcgm-101 clause 7
 */
export function networkTrials(network: CompiledNetwork, plan: TrialPlan): Outcome<Iterable<TrialChunk>> {
  const node = nodeIn(network, plan.node);
  if (!node.ok) return node;
  const issues = [
    ...drawnIssues(network, plan.drawn),
    ...plan.running.flatMap(({ speed, temperature }) => conditionIssues(speed, temperature)),
  ];
  if (issues.length > 0) return failed(...issues);
  const prepared = new PreparedNetwork(network);
  const levers = leversOf(network, prepared, plan.drawn);
  // Each condition with the pressures at the middle of everything, which every trial starts from.
  const points: { conditions: SumpConditions; start: Float64Array }[] = [];
  for (const { speed, temperature } of plan.running) {
    const conditions = prepared.conditionsAt(speed, temperature);
    const start = prepared.coldStart();
    prepared.at(conditions);
    const steps = prepared.solve(start);
    if (steps < 0) return failed(notConverged(steps, prepared.residual(start)));
    points.push({ conditions, start });
  }
  return ok(chunks());

  function* chunks(): Generator<TrialChunk> {
    const { seed, trials, first = 0, chunk = CHUNK } = plan;
    const draws = new Draws(levers, seed);
    const state = prepared.coldStart();
    const row = new Float64Array(points.length);
    for (let done = 0; done < trials; done += chunk) {
      const size = Math.min(chunk, trials - done);
      const pressures = new Float64Array(size * points.length);
      const lost: number[] = [];
      let kept = 0;
      let held = 0;
      for (let k = 0; k < size; k++) {
        const trial = first + done + k;
        held += draws.put(trial);
        let good = prepared.possible();
        for (let p = 0; good && p < points.length; p++) {
          const { conditions, start } = points[p]!;
          prepared.at(conditions);
          state.set(start);
          good = prepared.solve(state, REPEATED) > 0;
          row[p] = state[node.ok ? node.value : 0]!;
        }
        if (good) pressures.set(row, kept++ * points.length);
        else lost.push(trial);
      }
      yield {
        first: first + done,
        trials: size,
        pressures: pressures.subarray(0, kept * points.length),
        lost,
        held,
      };
    }
  }
}

/** Spread at each running condition over the chunks so far. @throws RangeError when fewer than two trials were kept */
export function trialSpreads(chunks: readonly TrialChunk[], running: number): Spread[] {
  const kept = chunks.reduce((sum, { pressures }) => sum + pressures.length / running, 0);
  const lost = chunks.reduce((sum, chunk) => sum + chunk.lost.length, 0);
  if (kept < 2) throw new RangeError(`${kept} trials of ${kept + lost} found a balance`);
  return Array.from({ length: running }, (_, p) => {
    const results = new Float64Array(kept);
    let at = 0;
    for (const { pressures } of chunks)
      for (let i = p; i < pressures.length; i += running) results[at++] = pressures[i]!;
    return spreadOf(results, lost);
  });
}

/** Draws all levers of a trial from the seed and the trial's number. */
class Draws {
  private readonly levers: readonly Lever[];
  private readonly seed: number;
  private readonly draws: readonly Draw[];
  private readonly deviates: Float64Array;
  /** Terms of all levers behind each other; where each lever's end. */
  private readonly ends: Int32Array;
  private readonly source: Int32Array;
  private readonly weight: Float64Array;
  private random = xoroshiro128plus(0);

  constructor(levers: readonly Lever[], seed: number) {
    this.levers = levers;
    this.seed = seed;
    const uniform: Draw = () => uniformFloat64(this.random);
    // One deviate from two uniform ones (Box and Muller), its twin unused: none is carried into the next trial.
    const normal: Draw = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    const numbers = new Map<string, number>();
    const draws: Draw[] = [];
    const terms = levers.flatMap(({ of }) => of.terms);
    for (const term of terms) {
      if (numbers.has(term.source)) continue;
      numbers.set(term.source, draws.length);
      draws.push(standardDraw(term, uniform, normal));
    }
    this.draws = draws;
    this.deviates = new Float64Array(draws.length);
    let end = 0;
    this.ends = Int32Array.from(levers, ({ of }) => {
      end += of.terms.length;
      return end;
    });
    this.source = Int32Array.from(terms, ({ source }) => numbers.get(source)!);
    this.weight = Float64Array.from(terms, ({ u }) => u);
  }

  /** Puts the values of a trial into the network. @returns how many were held at what can be */
  put(trial: number): number {
    this.random = xoroshiro128plus(mixed(this.seed, trial));
    const { draws, deviates, levers, ends, source, weight } = this;
    for (let s = 0; s < draws.length; s++) deviates[s] = draws[s]!();
    let held = 0;
    let k = 0;
    for (let i = 0; i < levers.length; i++) {
      const lever = levers[i]!;
      let value = lever.of.value;
      const first = k;
      for (; k < ends[i]!; k++) value += weight[k]! * deviates[source[k]!]!;
      if (k === first) continue;
      const possible = lever.held(value);
      if (possible !== value) held++;
      lever.put(possible);
    }
    return held;
  }
}

/**
 * A seed of its own for every trial: two rounds of multiply and fold, each of which turns 32 bits into 32 others one
 * to one, so that no two trials of a seed meet.
 */
function mixed(seed: number, trial: number): number {
  let x = (Math.imul(seed | 0, 0x9e3779b1) ^ trial) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
  return x ^ (x >>> 15);
}

import type { Elimination } from './elimination.ts';
import type { Flat } from './flat.ts';
import { type Imbalance, imbalance } from './imbalance.ts';

/** Room that one network's solves share, so that a thousand of them allocate nothing. */
export interface Workroom {
  readonly at: Imbalance;
  readonly next: Imbalance;
  readonly step: Float64Array;
  readonly trial: Float64Array;
}

export function workroomOf(nodes: number, slots: number): Workroom {
  const room = (): Imbalance => ({
    residual: new Float64Array(nodes + 1),
    diagonal: new Float64Array(nodes + 1),
    coupling: new Float64Array(slots + 1),
  });
  return { at: room(), next: room(), step: new Float64Array(nodes + 1), trial: new Float64Array(nodes + 1) };
}

const MOST_ITERATIONS = 200;
const MOST_TRIALS = 60;
/** Far over any pressure in an engine: how far a node that nothing yet drains may be thrown in one step [Pa]. */
const LONGEST_STEP = 1e8;
/** From a pressure beyond this no step is long: whoever starts there is lost, and must not be taken for settled [Pa]. */
const HIGHEST = 100 * LONGEST_STEP;

/** Greatest imbalance of a node [m³/s]. */
export function worstOf({ residual }: Imbalance, nodes: number): number {
  let most = 0;
  for (let i = 0; i < nodes; i++) {
    const size = Math.abs(residual[i]!);
    if (size > most) most = size;
  }
  return most;
}

/** Smallest pivot a factor may keep. */
export function leastPivot(matrix: Imbalance, nodes: number): number {
  let greatest = 0;
  for (let i = 0; i < nodes; i++) if (matrix.diagonal[i]! > greatest) greatest = matrix.diagonal[i]!;
  return Math.max(greatest * 1e-15, worstOf(matrix, nodes) / LONGEST_STEP + Number.MIN_VALUE);
}

/**
 * Node pressures at which every node's outflow equals its inflow.
 *
 * Every law grows with its pressure difference, so the balances r(p) are the gradient of a strictly convex
 * function. A Newton step is damped along its ray until r·d there is at most half of what it was: that alone
 * brings it home from anywhere, valves and all, where damping by rule of thumb cycles.
 *
 * @param pressures  start, and the answer [Pa]; the sump's zero after the last
 * @param tolerance  of the last step, as a share of the highest pressure; what is left after it is its square
 * @returns          steps taken, the sign turned when they ended without an answer
 */
export function balance(
  flat: Flat,
  elimination: Elimination,
  room: Workroom,
  smoothing: number,
  tolerance: number,
  pressures: Float64Array,
): number {
  const n = flat.nodes;
  const { step, trial } = room;
  let { at, next } = room;
  imbalance(flat, pressures, smoothing, at);
  for (let iteration = 1; iteration <= MOST_ITERATIONS; iteration++) {
    const { residual } = at;
    for (let i = 0; i < n; i++) step[i] = -residual[i]!;
    step[n] = 0;
    elimination.factor(at, leastPivot(at, n));
    elimination.solve(at, step);
    let slope0 = 0;
    let longest = 0;
    let highest = 0;
    for (let i = 0; i < n; i++) {
      const by = step[i]!;
      const p = pressures[i]!;
      slope0 += residual[i]! * by;
      longest = Math.max(longest, Math.abs(by));
      highest = Math.max(highest, Math.abs(p));
      trial[i] = p + by;
    }
    if (!(longest < Number.POSITIVE_INFINITY && highest < HIGHEST)) return -iteration;
    if (longest <= tolerance * (1e3 + highest)) {
      for (let i = 0; i < n; i++) pressures[i] = trial[i]!;
      return iteration;
    }
    imbalance(flat, trial, smoothing, next);
    const enough = Math.abs(slope0) / 2;
    let slope = alongStep(next, step, n);
    if (slope > enough) {
      let low = 0;
      let slopeLow = slope0;
      let high = 1;
      let slopeHigh = slope;
      for (let k = 0; k < MOST_TRIALS && Math.abs(slope) > enough; k++) {
        const t = (low * slopeHigh - high * slopeLow) / (slopeHigh - slopeLow);
        for (let i = 0; i < n; i++) trial[i] = pressures[i]! + t * step[i]!;
        imbalance(flat, trial, smoothing, next);
        slope = alongStep(next, step, n);
        if (slope > 0) {
          high = t;
          slopeHigh = slope;
          // The end that stays put twice is halved, or regula falsi crawls.
          slopeLow /= 2;
        } else {
          low = t;
          slopeLow = slope;
          slopeHigh /= 2;
        }
      }
    }
    for (let i = 0; i < n; i++) pressures[i] = trial[i]!;
    const was = at;
    at = next;
    next = was;
  }
  return -MOST_ITERATIONS;
}

/** r·d: how the convex function still falls along the step. */
function alongStep({ residual }: Imbalance, step: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += residual[i]! * step[i]!;
  return sum;
}

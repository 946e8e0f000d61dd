import type { FlowAndSlope, FlowLaw } from './element.ts';
import { type Envelope, solvedInPlace } from './envelope.ts';

/** One element between two nodes; −1 is the sump, where the pressure is zero. */
export interface Branch {
  readonly from: number;
  readonly to: number;
  readonly law: FlowLaw;
  readonly head: number;
  readonly count: number;
}

export interface Balance {
  readonly iterations: number;
  readonly converged: boolean;
  /** Greatest imbalance of a node [m³/s]. */
  readonly residual: number;
}

const MOST_ITERATIONS = 200;
const MOST_TRIALS = 60;
/** Far over any pressure in an engine: how far a node that nothing yet drains may be thrown in one step [Pa]. */
const LONGEST_STEP = 1e8;

/**
 * Node pressures at which every node's outflow equals its inflow.
 *
 * Every law grows with its pressure difference, so the balances r(p) are the gradient of a strictly convex
 * function. A Newton step is damped along its ray until r·d there is at most half of what it was: that alone
 * brings it home from anywhere, valves and all, where damping by rule of thumb cycles.
 *
 * @param pressures  start, and the answer [Pa]
 */
export function balance(branches: readonly Branch[], envelope: Envelope, pressures: Float64Array): Balance {
  const n = pressures.length;
  const residual = new Float64Array(n);
  const step = new Float64Array(n);
  const trial = new Float64Array(n);
  const out: FlowAndSlope = { flow: 0, slope: 0 };
  const { rows, matrix } = envelope;

  const imbalance = (at: Float64Array, withSlopes: boolean): void => {
    residual.fill(0);
    if (withSlopes) matrix.fill(0);
    for (const { from, to, law, head, count } of branches) {
      law((from < 0 ? 0 : at[from]!) - (to < 0 ? 0 : at[to]!) + head, out);
      const flow = count * out.flow;
      if (from >= 0) residual[from]! += flow;
      if (to >= 0) residual[to]! -= flow;
      if (!withSlopes) continue;
      const slope = count * out.slope;
      if (from >= 0) matrix[rows[from]! + from]! += slope;
      if (to >= 0) matrix[rows[to]! + to]! += slope;
      if (from >= 0 && to >= 0) matrix[from > to ? rows[from]! + to : rows[to]! + from]! -= slope;
    }
  };

  const along = (t: number): number => {
    for (let i = 0; i < n; i++) trial[i] = pressures[i]! + t * step[i]!;
    imbalance(trial, false);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += residual[i]! * step[i]!;
    return sum;
  };

  const worst = (): number => {
    let most = 0;
    for (let i = 0; i < n; i++) most = Math.max(most, Math.abs(residual[i]!));
    return most;
  };

  for (let iteration = 1; iteration <= MOST_ITERATIONS; iteration++) {
    imbalance(pressures, true);
    for (let i = 0; i < n; i++) step[i] = -residual[i]!;
    const before = residual.slice();
    solvedInPlace(envelope, step, worst() / LONGEST_STEP + Number.MIN_VALUE);
    let slope0 = 0;
    let longest = 0;
    let highest = 0;
    for (let i = 0; i < n; i++) {
      slope0 += before[i]! * step[i]!;
      longest = Math.max(longest, Math.abs(step[i]!));
      highest = Math.max(highest, Math.abs(pressures[i]!));
    }
    if (!Number.isFinite(longest)) return { iterations: iteration, converged: false, residual: worst() };
    if (longest <= 1e-9 * (1e3 + highest)) {
      for (let i = 0; i < n; i++) pressures[i]! += step[i]!;
      imbalance(pressures, false);
      return { iterations: iteration, converged: true, residual: worst() };
    }
    const enough = Math.abs(slope0) / 2;
    let t = 1;
    let slope = along(1);
    if (slope > enough) {
      let low = 0;
      let slopeLow = slope0;
      let high = 1;
      let slopeHigh = slope;
      for (let k = 0; k < MOST_TRIALS && Math.abs(slope) > enough; k++) {
        t = (low * slopeHigh - high * slopeLow) / (slopeHigh - slopeLow);
        slope = along(t);
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
    for (let i = 0; i < n; i++) pressures[i]! += t * step[i]!;
  }
  imbalance(pressures, false);
  return { iterations: MOST_ITERATIONS, converged: false, residual: worst() };
}

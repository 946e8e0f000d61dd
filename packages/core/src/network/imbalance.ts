import type { Flat } from './flat.ts';
import type { FlowAndSlope } from './flow-law.ts';

/** Outflow less inflow of every node, and how it grows with every pressure. The last entry is the sump's, never used. */
export interface Imbalance {
  /** [m³/s] */
  readonly residual: Float64Array;
  readonly diagonal: Float64Array;
  /** By slot; the last takes what couples to the sump. */
  readonly coupling: Float64Array;
}

const own: FlowAndSlope = { flow: 0, slope: 0 };

/**
 * Flow of a passage past the crossing, from its laminar flow, which is more.
 * The turbulent curve lies above the laminar one past the crossing and is convex: Newton from the right never overshoots.
 */
function turbulentFlow(size: number, turbulent: number, minor: number, laminar: number): number {
  let q = laminar;
  for (let i = 0; i < 60; i++) {
    const root = Math.sqrt(q);
    const part = turbulent * root * Math.sqrt(root);
    const step = (part * q + minor * q * q - size) / (1.75 * part + 2 * minor * q);
    q -= step;
    if (step <= 1e-8 * q) break;
  }
  return q;
}

/** @param p  node pressures [Pa], the sump's zero after the last */
export function imbalance(flat: Flat, p: Float64Array, smoothing: number, into: Imbalance): void {
  const { residual, diagonal, coupling } = into;
  const { ground, constant } = flat;
  const nodes = flat.nodes;
  for (let i = 0; i < nodes; i++) {
    const g = ground[i]!;
    residual[i] = constant[i]! + g * p[i]!;
    diagonal[i] = g;
  }
  coupling.fill(0);

  const { passages } = flat;
  {
    const { from, to, slot, head, flow: passed, linear, minor, turbulent, crossing, size: count } = passages;
    for (let i = 0; i < count; i++) {
      const a = from[i]!;
      const b = to[i]!;
      const difference = p[a]! - p[b]! + head[i]!;
      const size = Math.abs(difference);
      const lin = linear[i]!;
      const min = minor[i]!;
      // The positive root of minor·Q² + linear·Q = Δp, written without cancellation; the root is the slope of the loss.
      let loss = Math.sqrt(lin * lin + 4 * min * size);
      let q = (2 * size) / (lin + loss);
      if (q > crossing[i]!) {
        q = turbulentFlow(size, turbulent[i]!, min, q);
        const root = Math.sqrt(q);
        loss = 1.75 * turbulent[i]! * root * Math.sqrt(root) + 2 * min * q;
      }
      const slope = 1 / loss;
      const flow = difference < 0 ? -q : q;
      passed[i] = flow;
      residual[a]! += flow;
      residual[b]! -= flow;
      diagonal[a]! += slope;
      diagonal[b]! += slope;
      coupling[slot[i]!]! -= slope;
    }
  }

  const { films, between } = flat;
  for (let k = 0; k < between.length; k++) {
    const i = between[k]!;
    const a = films.from[i]!;
    const b = films.to[i]!;
    const slope = films.conductance[i]!;
    const flow = slope * (p[a]! - p[b]! + films.head[i]!);
    residual[a]! += flow;
    residual[b]! -= flow;
    diagonal[a]! += slope;
    diagonal[b]! += slope;
    coupling[films.slot[i]!]! -= slope;
  }

  const { drawn } = flat;
  for (let i = 0; i < drawn.size; i++) {
    const a = drawn.from[i]!;
    const b = drawn.to[i]!;
    const difference = p[a]! - p[b]! + drawn.head[i]!;
    const half = drawn.half[i]!;
    const inverse = 1 / (Math.abs(difference) + half);
    const share = drawn.most[i]! * inverse;
    const flow = share * difference;
    const slope = share * half * inverse;
    drawn.flow[i] = flow;
    residual[a]! += flow;
    residual[b]! -= flow;
    diagonal[a]! += slope;
    diagonal[b]! += slope;
    coupling[drawn.slot[i]!]! -= slope;
  }

  const { holes } = flat;
  for (let i = 0; i < holes.size; i++) {
    const a = holes.from[i]!;
    const b = holes.to[i]!;
    const difference = p[a]! - p[b]! + holes.head[i]!;
    const size = Math.abs(difference);
    const sum = size + holes.soft[i]!;
    const part = holes.jet[i]! / Math.sqrt(sum);
    const flow = part * difference;
    const slope = (part * (sum - 0.5 * size)) / sum;
    holes.flow[i] = flow;
    residual[a]! += flow;
    residual[b]! -= flow;
    diagonal[a]! += slope;
    diagonal[b]! += slope;
    coupling[holes.slot[i]!]! -= slope;
  }

  const { valves } = flat;
  for (let i = 0; i < valves.size; i++) {
    const a = valves.from[i]!;
    const b = valves.to[i]!;
    const difference = p[a]! - p[b]! + valves.head[i]!;
    const range = valves.range[i]!;
    const u = (difference - valves.opening[i]!) / range;
    valves.flow[i] = 0;
    if (u <= 0) continue;
    const size = Math.abs(difference);
    const sum = size + valves.soft[i]!;
    const part = valves.jet[i]! / Math.sqrt(sum);
    let flow = part * difference;
    let slope = (part * (sum - 0.5 * size)) / sum;
    if (u < 1) {
      const s = u * u * (3 - 2 * u);
      slope = s * slope + ((6 * u * (1 - u)) / range) * flow;
      flow *= s;
    }
    valves.flow[i] = flow;
    residual[a]! += flow;
    residual[b]! -= flow;
    diagonal[a]! += slope;
    diagonal[b]! += slope;
    coupling[valves.slot[i]!]! -= slope;
  }

  const { reliefs } = flat;
  for (let i = 0; i < reliefs.size; i++) {
    const a = reliefs.from[i]!;
    const b = reliefs.to[i]!;
    const difference = p[a]! - p[b]! + reliefs.head[i]!;
    const over = difference - reliefs.cracking[i]!;
    reliefs.flow[i] = 0;
    if (over <= 0) continue;
    const size = Math.abs(difference);
    const sum = size + smoothing;
    const part = reliefs.jet[i]! / Math.sqrt(sum);
    let flow = part * difference;
    let slope = (part * (sum - 0.5 * size)) / sum;
    const opened = reliefs.perPascal[i]! * over;
    if (opened < reliefs.fullest[i]!) {
      slope = opened * slope + reliefs.perPascal[i]! * flow;
      flow *= opened;
    } else {
      slope *= reliefs.fullest[i]!;
      flow *= reliefs.fullest[i]!;
    }
    reliefs.flow[i] = flow;
    residual[a]! += flow;
    residual[b]! -= flow;
    diagonal[a]! += slope;
    diagonal[b]! += slope;
    coupling[reliefs.slot[i]!]! -= slope;
  }

  const { owns } = flat;
  for (let i = 0; i < owns.size; i++) {
    const a = owns.from[i]!;
    const b = owns.to[i]!;
    owns.law[i]!(p[a]! - p[b]! + owns.head[i]!, own);
    const flow = owns.count[i]! * own.flow;
    const slope = owns.count[i]! * own.slope;
    owns.flow[i] = flow;
    residual[a]! += flow;
    residual[b]! -= flow;
    diagonal[a]! += slope;
    diagonal[b]! += slope;
    coupling[owns.slot[i]!]! -= slope;
  }
}

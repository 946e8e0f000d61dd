import type { Caution } from '@fettle/core';
import type { FilledCircuit } from './circuit.ts';
import { type EngineState, oilShares, type Running, sweptFlow } from './pressure.ts';

/** One way of the oil; like elements between the same nodes, such as main-1 to main-3, are one. */
export interface FlowGroup {
  /** The elements' common name: `main`. */
  readonly name: string;
  readonly members: readonly string[];
  readonly law: string;
  /** Whether it pushes oil into the circuit. */
  readonly pumps: boolean;
  /** Whether the circuit's oil ends in the sump by it: the scavenge pump of a dry sump takes oil that has. */
  readonly drains: boolean;
  /** Nodes; undefined is the sump. */
  readonly from?: string;
  readonly to?: string;
  /** All members together [m³/s], positive from `from` to `to`. */
  readonly flow: number;
}

/** The whole circuit with its flows, as it can be drawn. */
export interface CircuitFlows {
  readonly groups: readonly FlowGroup[];
  /** By node [Pa]. */
  readonly pressures: Readonly<Record<string, number>>;
  readonly gauge: string;
  /** What the pumps give the circuit [m³/s]. */
  readonly delivered: number;
  /** What they would without their leaks, and what slips back through these [m³/s]; where they have a displacement. */
  readonly swept?: number;
  readonly back?: number;
  /** Where the laws used no longer hold. */
  readonly cautions: readonly Caution[];
}

const NUMBERED = /[-.]?\d+$/;
const SUMP = 'sump';

const nodeOf = (node: unknown): string | undefined =>
  node === undefined || node === SUMP ? undefined : String(node);

/**
 * Where the oil goes, between which nodes.
 *
 * @throws RangeError  when the network finds no balance
 */
export function circuitFlows(circuit: FilledCircuit, running: Running, state: EngineState): CircuitFlows {
  const { shares, pressures, cautions } = oilShares(circuit, running, state);
  const elements = circuit.input.elements as readonly Record<string, unknown>[];
  const groups = new Map<string, FlowGroup>();
  elements.forEach((element, i) => {
    const { element: id, law, flow, pumps, drains } = shares[i]!;
    const [from, to] = [nodeOf(element.from), nodeOf(element.to)];
    const name = id.replace(NUMBERED, '').replaceAll('-', ' ') || id;
    const key = JSON.stringify([name, law, from, to]);
    const known = groups.get(key);
    groups.set(key, {
      name,
      law,
      pumps,
      drains,
      members: [...(known?.members ?? []), id],
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      flow: (known?.flow ?? 0) + flow,
    });
  });
  const swept = sweptFlow(circuit, running);
  const delivered = shares.reduce((sum, { flow, pumps }) => sum + (pumps ? flow : 0), 0);
  return {
    groups: [...groups.values()],
    pressures,
    gauge: circuit.gauge,
    delivered,
    cautions,
    ...(swept !== undefined && { swept, back: Math.max(0, swept - delivered) }),
  };
}

import {
  exact,
  monteCarlo,
  propagated,
  type SolvedNetwork,
  type Spread,
  solvedNetwork,
  type Uncertain,
} from '@fettle/core';
import type { FilledCircuit, FilledParameter } from './circuit.ts';

/** The clearances of which engine: as new, as measured (nominal where nothing was), or with some repairs made. */
export type EngineState =
  | { readonly as: 'new' }
  | { readonly as: 'measured' }
  | { readonly as: 'repaired'; readonly repairs: readonly string[] };

export interface Running {
  /** Of the crank [rad/s] */
  readonly speed: number;
  /** Of the sump [K] */
  readonly temperature: number;
}

const valueIn =
  (state: EngineState) =>
  (parameter: FilledParameter): Uncertain => {
    if (state.as === 'new') return exact(parameter.nominal);
    if (state.as === 'repaired' && state.repairs.includes(parameter.repair)) return exact(parameter.repaired);
    return parameter.measured ?? exact(parameter.nominal);
  };

/**
 * Solves the circuit many times from near starts.
 * A draw so far out that a clearance would not be above zero is held at a tenth of a micrometre's worth of nominal:
 * a closed gap leaks nothing, and the network wants a number.
 */
class Solver {
  private readonly circuit: FilledCircuit;
  private readonly running: Running;
  private start: Float64Array | undefined;

  constructor(circuit: FilledCircuit, running: Running) {
    this.circuit = circuit;
    this.running = running;
  }

  solved(values: readonly number[]): SolvedNetwork {
    const parameters = Object.fromEntries(
      this.circuit.parameters.map(({ name, nominal }, i) => [name, Math.max(values[i]!, nominal * 1e-4)]),
    );
    const answer = solvedNetwork(this.circuit.network, {
      ...this.running,
      parameters,
      ...(this.start && { start: this.start }),
    });
    if (!answer.ok) throw new RangeError(answer.issues[0]!.message);
    this.start ??= answer.value.state;
    return answer.value;
  }

  gauge(values: readonly number[]): number {
    return this.solved(values).pressures[this.circuit.gauge]!;
  }
}

/**
 * The pressure the gauge would show [Pa], with the doubt that the readings leave in it, to first order.
 * The model's own constants carry no doubt here; they are marked assumed where they are shown.
 *
 * @throws RangeError  when the network finds no balance
 */
export function gaugePressure(circuit: FilledCircuit, running: Running, state: EngineState): Uncertain {
  const solver = new Solver(circuit, running);
  return propagated((values) => solver.gauge(values), circuit.parameters.map(valueIn(state)));
}

/** The same by Monte Carlo, every source of doubt drawn once a trial. */
export function gaugePressureSpread(
  circuit: FilledCircuit,
  running: Running,
  state: EngineState,
  trials: { trials: number; seed: number },
): Spread {
  const solver = new Solver(circuit, running);
  return monteCarlo((values) => solver.gauge(values), circuit.parameters.map(valueIn(state)), trials);
}

/** The repairs the circuit knows, in the order of its elements. */
export const repairsOf = (circuit: FilledCircuit): string[] => [
  ...new Set(circuit.parameters.map(({ repair }) => repair)),
];

export interface OilShare {
  readonly element: string;
  readonly law: string;
  /** [m³/s], positive from the first node to the second. */
  readonly flow: number;
  /** Whether it ends in the sump; others only pass oil on. A pump does not drain. */
  readonly drains: boolean;
}

/** Where the oil goes, element by element, and every node's pressure. */
export function oilShares(
  circuit: FilledCircuit,
  running: Running,
  state: EngineState,
): { shares: OilShare[]; pressures: Readonly<Record<string, number>> } {
  const values = circuit.parameters.map((parameter) => valueIn(state)(parameter).value);
  const { flows, pressures } = new Solver(circuit, running).solved(values);
  const elements = circuit.input.elements as readonly Record<string, unknown>[];
  return {
    shares: elements.map((element) => ({
      element: String(element.id),
      law: String(element.law),
      flow: flows[String(element.id)] ?? 0,
      drains: element.law !== 'gear-pump' && (element.to === undefined || element.to === 'sump'),
    })),
    pressures,
  };
}

/** What the pump would deliver without its leaks [m³/s]; undefined where the circuit has no pump by displacement. */
export function sweptFlow({ network, input }: FilledCircuit, running: Running): number | undefined {
  const elements = input.elements as readonly Record<string, unknown>[];
  const pump = elements.find(({ law }) => law === 'gear-pump');
  const displacement = network.parameters[`${String(pump?.id)}.displacement`];
  const ratio = network.parameters[`${String(pump?.id)}.speed_ratio`];
  if (displacement === undefined || ratio === undefined) return undefined;
  return (displacement * ratio * running.speed) / (2 * Math.PI);
}

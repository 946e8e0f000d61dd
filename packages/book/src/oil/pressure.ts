import {
  type Caution,
  type CompiledNetwork,
  exact,
  idealDelivery,
  type Knob,
  monteCarlo,
  PreparedNetwork,
  propagated,
  pumping,
  type SolvedNetwork,
  type Spread,
  solvedNetwork,
  type Uncertain,
} from '@fettle/core';
import type { FilledCircuit, FilledParameter } from './circuit.ts';

/**
 * The clearances of which engine: as new, as measured (nominal where nothing was), with some repairs made, or with
 * some of its parameters as somebody would try them.
 */
export type EngineState =
  | { readonly as: 'new' }
  | { readonly as: 'measured' }
  | { readonly as: 'repaired'; readonly repairs: readonly string[] }
  | {
      readonly as: 'tried';
      readonly repairs: readonly string[];
      /** By the parameter's name, in SI with its factor applied; without doubt, for it is only thought. */
      readonly values: Readonly<Record<string, number>>;
    };

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
    const tried = state.as === 'tried' ? state.values[parameter.name] : undefined;
    if (tried !== undefined) return exact(tried);
    if (state.as !== 'measured' && state.repairs.includes(parameter.repair)) return exact(parameter.repaired);
    return parameter.measured ?? exact(parameter.nominal);
  };

/** A closed gap leaks nothing, and the network wants a number: no gap is let be under this share of its nominal. */
const CLOSED = 1e-4;

/** The circuit's network made ready once, with the knobs of its parameters in their order. */
function preparedOf({ network, parameters }: FilledCircuit): { prepared: PreparedNetwork; knobs: Knob[] } {
  const known = PREPARED.get(network);
  if (known) return known;
  const prepared = new PreparedNetwork(network);
  const made = { prepared, knobs: parameters.map(({ name }) => prepared.knob(name)!) };
  PREPARED.set(network, made);
  return made;
}

const PREPARED = new WeakMap<CompiledNetwork, { prepared: PreparedNetwork; knobs: Knob[] }>();

/** Solves the circuit many times from near starts. Every parameter is put in before every solve, so solvers may share. */
class Solver {
  private readonly circuit: FilledCircuit;
  private readonly running: Running;
  private readonly gaugeNode: number;
  private start: Float64Array | undefined;

  constructor(circuit: FilledCircuit, running: Running) {
    this.circuit = circuit;
    this.running = running;
    this.gaugeNode = circuit.network.nodes.indexOf(circuit.gauge);
  }

  solved(values: readonly number[]): SolvedNetwork {
    const parameters = Object.fromEntries(
      this.circuit.parameters.map(({ name, nominal }, i) => [name, Math.max(values[i]!, nominal * CLOSED)]),
    );
    const answer = solvedNetwork(this.circuit.network, { ...this.running, parameters });
    if (!answer.ok) throw new RangeError(answer.issues[0]!.message);
    return answer.value;
  }

  gauge(values: readonly number[]): number {
    const { parameters } = this.circuit;
    const { prepared, knobs } = preparedOf(this.circuit);
    for (let i = 0; i < knobs.length; i++)
      prepared.set(knobs[i]!, Math.max(values[i]!, parameters[i]!.nominal * CLOSED));
    prepared.at(prepared.conditionsAt(this.running.speed, this.running.temperature));
    const state = this.start?.slice() ?? prepared.coldStart();
    if (prepared.solve(state) < 0) {
      // The slow way says in words what is wrong, or finds the balance from a start of its own.
      return this.solved(values).pressures[this.circuit.gauge]!;
    }
    this.start ??= state;
    return state[this.gaugeNode]!;
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
export function repairsOf(circuit: FilledCircuit): string[] {
  const elements = circuit.input.elements as readonly Record<string, unknown>[];
  // What stands beside the circuit, a scavenge pump, moves no pressure in it.
  const beside = elements.flatMap(({ id, law }) => (pumping(String(law)).aside ? [`${String(id)}.`] : []));
  return [
    ...new Set(
      circuit.parameters.flatMap(({ name, repair }) =>
        beside.some((prefix) => name.startsWith(prefix)) ? [] : [repair],
      ),
    ),
  ];
}

export interface OilShare {
  readonly element: string;
  readonly law: string;
  /** [m³/s], positive from the first node to the second. */
  readonly flow: number;
  /** Whether it pushes oil into the circuit. */
  readonly pumps: boolean;
  /** Whether it ends in the sump; others only pass oil on. A pump does not drain. */
  readonly drains: boolean;
}

/** Where the oil goes, element by element, every node's pressure, and where the laws that were used no longer hold. */
export function oilShares(
  circuit: FilledCircuit,
  running: Running,
  state: EngineState,
): {
  shares: OilShare[];
  pressures: Readonly<Record<string, number>>;
  cautions: readonly Caution[];
} {
  const values = circuit.parameters.map((parameter) => valueIn(state)(parameter).value);
  const { flows, pressures, cautions } = new Solver(circuit, running).solved(values);
  const elements = circuit.input.elements as readonly Record<string, unknown>[];
  return {
    shares: elements.map((element) => {
      const { pump, aside } = pumping(String(element.law));
      const ends = element.to === undefined || element.to === 'sump';
      return {
        element: String(element.id),
        law: String(element.law),
        flow: flows[String(element.id)] ?? 0,
        pumps: pump,
        drains: !pump && !aside && ends,
      };
    }),
    pressures,
    cautions,
  };
}

/** What the pumps would deliver without their leaks [m³/s]; undefined where the circuit has none. */
export function sweptFlow({ network }: FilledCircuit, running: Running): number | undefined {
  const swept = idealDelivery(network, running.speed);
  return swept > 0 ? swept : undefined;
}

/** A cold gauge under a hot one: so it is where a valve holds the pressure at the pump, and thick oil loses more from there. */
export const colderIsLess = (rows: readonly (Running & { readonly value: number })[]): boolean =>
  rows.some((row) =>
    rows.some(
      (other) => other.speed === row.speed && other.temperature < row.temperature && other.value < row.value,
    ),
  );

import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import type { QuantityKind } from '../units/kinds.ts';
import type { Bounds } from '../units/read-quantity.ts';
import type { LawParameter } from './element.ts';
import { type Elimination, eliminationOf } from './elimination.ts';
import { narrowOrder } from './envelope.ts';
import type { PlacedElement } from './flat.ts';
import type { Fluid } from './fluid.ts';
import { COMMON_PARAMETERS } from './laws.ts';
import { PreparedNetwork } from './prepared.ts';
import { elementOf, fluidOf, issue, quantityAt, shown } from './read.ts';
import { DEFAULT_SMOOTHING } from './schema.ts';
import { graphOf, outlined } from './shape.ts';

interface Place {
  readonly element: PlacedElement;
  readonly key: string;
  readonly spec: LawParameter;
}

/** A network read and checked once, ready to be solved many times. */
export interface CompiledNetwork {
  /** Names of the nodes, the sump left out; pressures come in this order. */
  readonly nodes: readonly string[];
  /** Ids of the elements; flows come in this order. */
  readonly elements: readonly string[];
  readonly gauge?: string;
  /** `element.parameter` → SI, of everything that has a number: what `parameters` of a solve may replace. */
  readonly parameters: Readonly<Record<string, number>>;
  /** Speed of the crank [rad/s] and temperature of the sump [K], where the file gave them. */
  readonly speed?: number;
  readonly temperature?: number;
  /** @internal */
  readonly inside: {
    readonly elements: readonly PlacedElement[];
    readonly fluid: Fluid;
    readonly smoothing: number;
    readonly elimination: Elimination;
    /** The network as `solvedNetwork` last left it, restored before each use. */
    readonly workshop: { prepared?: PreparedNetwork };
    /** Where each parameter that can be replaced lies. */
    readonly places: ReadonlyMap<string, Place>;
  };
}

export interface RunningConditions {
  /** Of the crank [rad/s]; the file's when not given. */
  readonly speed?: number;
  /** Of the oil in the sump [K]; the file's when not given. */
  readonly temperature?: number;
  /** `element.parameter` → SI, in place of the file's. */
  readonly parameters?: Readonly<Record<string, number>>;
  /** Pressures of an earlier answer, in the order of `nodes` [Pa]: a near start saves steps. */
  readonly start?: ArrayLike<number>;
}

export interface SolvedNetwork {
  /** By node [Pa, gauge]. */
  readonly pressures: Readonly<Record<string, number>>;
  /** By element, all its equal ones together [m³/s]. */
  readonly flows: Readonly<Record<string, number>>;
  /** The pressures in the order of `nodes`, to start the next solve from. */
  readonly state: Float64Array;
  readonly iterations: number;
  /** Greatest imbalance of a node that is left [m³/s]. */
  readonly residual: number;
}

const HEAT = { above: 0, max: 600 } as const;
const POSITIVE = { above: 0 } as const;

/** Reads and checks a network; everything wrong with it comes back at once, each with where it stands. */
export function compiledNetwork(input: unknown): Outcome<CompiledNetwork> {
  const outline = outlined(input);
  if (!outline.ok) return outline;
  const spec = outline.value;
  const issues: Issue[] = [];
  const take = <T>(outcome: Outcome<T>): T | undefined => {
    if (outcome.ok) return outcome.value;
    issues.push(...outcome.issues);
    return undefined;
  };

  const read = spec.elements.map((element, i) => take(elementOf(element, `/elements/${i}`)));
  const fluid = take(fluidOf(spec.fluid));
  const whenGiven = (
    key: 'speed' | 'temperature' | 'smoothing_pressure',
    kind: QuantityKind,
    bounds: Bounds,
  ) => (spec[key] === undefined ? undefined : take(quantityAt(`/${key}`, spec[key], kind, bounds)));
  const speed = whenGiven('speed', 'speed', POSITIVE);
  const temperature = whenGiven('temperature', 'temperature', HEAT);
  const smoothing = whenGiven('smoothing_pressure', 'pressure', POSITIVE) ?? DEFAULT_SMOOTHING;
  const graph = take(graphOf(spec));
  if (issues.length > 0 || !fluid || !graph) return failed(...issues);

  const { nodes, ends } = graph;
  const order = narrowOrder(nodes.length, ends);
  const place = new Int32Array(nodes.length);
  order.forEach((node, i) => {
    place[node] = i;
  });
  const at = (node: number): number => (node < 0 ? -1 : place[node]!);
  const elements = spec.elements.map(
    (element, i): PlacedElement => ({
      ...read[i]!,
      id: element.id,
      from: at(ends[i]![0]),
      to: at(ends[i]![1]),
    }),
  );
  const parameters: Record<string, number> = {};
  const places = new Map<string, Place>();
  for (const element of elements)
    for (const [key, value] of Object.entries(element.parameters)) {
      if (Number.isNaN(value)) continue;
      const name = `${element.id}.${key}`;
      parameters[name] = value;
      places.set(name, { element, key, spec: { ...COMMON_PARAMETERS, ...element.law.parameters }[key]! });
    }
  return ok({
    nodes: order.map((node) => nodes[node]!),
    elements: elements.map((element) => element.id),
    ...(spec.gauge === undefined ? {} : { gauge: spec.gauge }),
    parameters,
    ...(speed === undefined ? {} : { speed }),
    ...(temperature === undefined ? {} : { temperature }),
    inside: {
      elements,
      fluid,
      smoothing,
      places,
      workshop: {},
      elimination: eliminationOf(
        nodes.length,
        elements.map((element) => [element.from, element.to] as const),
      ),
    },
  });
}

/** Balances the network at a speed and a temperature. */
export function solvedNetwork(
  network: CompiledNetwork,
  conditions: RunningConditions,
): Outcome<SolvedNetwork> {
  const speed = conditions.speed ?? network.speed;
  const temperature = conditions.temperature ?? network.temperature;
  const issues = [
    ...conditionIssues(speed, temperature),
    ...replacementIssues(network, conditions.parameters),
  ];
  if (issues.length > 0) return failed(...issues);

  const prepared = workshopOf(network, conditions.parameters);
  prepared.at(prepared.conditionsAt(speed!, temperature!));
  const n = network.nodes.length;
  const state = prepared.coldStart();
  if (conditions.start?.length === n) state.set(conditions.start);
  const steps = prepared.solve(state);
  const residual = prepared.residual(state);
  if (steps < 0) return failed(notConverged(steps, residual));
  const flows = prepared.flows(state);
  return ok({
    pressures: Object.fromEntries(network.nodes.map((node, i) => [node, state[i]!])),
    flows: Object.fromEntries(network.elements.map((id, i) => [id, flows[i]!])),
    state: state.slice(0, n),
    iterations: steps,
    residual,
  });
}

/** The network prepared, as the file has it but for some parameters; whoever asks next changes it. */
export function workshopOf(
  network: CompiledNetwork,
  parameters: Readonly<Record<string, number>> = {},
): PreparedNetwork {
  const { workshop } = network.inside;
  workshop.prepared ??= new PreparedNetwork(network);
  const { prepared } = workshop;
  prepared.restore();
  for (const [name, value] of Object.entries(parameters)) prepared.set(prepared.knob(name)!, value);
  return prepared;
}

/** Number of a node by its name; the gauge's when none is given. */
export function nodeIn(network: CompiledNetwork, name = network.gauge): Outcome<number> {
  const found = name === undefined ? -1 : network.nodes.indexOf(name);
  if (found >= 0) return ok(found);
  return failed(
    issue(
      'unknown-node',
      '/node',
      name,
      network.nodes.join(', '),
      'Say at which node the pressure is wanted, or which the gauge reads.',
    ),
  );
}

export const notConverged = (steps: number, residual: number): Issue =>
  issue(
    'not-converged',
    '',
    `an imbalance of ${residual} m³/s after ${-steps} steps`,
    'a balance at every node',
    'No balance of flows was found. Check for a part of the circuit that nothing feeds or drains, and for sizes far out of proportion.',
  );

/** What keeps a speed and a temperature from being run at. */
export function conditionIssues(speed: number | undefined, temperature: number | undefined): Issue[] {
  const issues: Issue[] = [];
  if (!(speed !== undefined && speed > 0 && Number.isFinite(speed)))
    issues.push(
      issue('missing', '/speed', speed, 'speed of the crank, over 0', 'Say at which speed the crank turns.'),
    );
  if (!(temperature !== undefined && temperature > 0 && temperature <= HEAT.max))
    issues.push(
      issue(
        'missing',
        '/temperature',
        temperature,
        'temperature of the sump',
        'Say how hot the oil in the sump is.',
      ),
    );
  return issues;
}

/** What is wrong with parameters put in place of the file's, each by itself and beside the others. */
export function replacementIssues(
  network: CompiledNetwork,
  wanted: Readonly<Record<string, number>> = {},
): Issue[] {
  const issues: Issue[] = [];
  const replaced = new Map<PlacedElement, Record<string, number>>();
  for (const [name, value] of Object.entries(wanted)) {
    const place = network.inside.places.get(name);
    if (!place) {
      issues.push(
        issue(
          'unknown-parameter',
          `/parameters/${name}`,
          name,
          'element.parameter with a number in the network',
          `The network has no "${shown(name)}" to replace. Check the element's id and the parameter's name.`,
        ),
      );
      continue;
    }
    const { element, key, spec } = place;
    const checked = quantityAt(`/parameters/${name}`, value, spec.kind, spec);
    if (!checked.ok) {
      issues.push(...checked.issues);
      continue;
    }
    const parameters = replaced.get(element) ?? { ...element.parameters };
    parameters[key] = checked.value;
    replaced.set(element, parameters);
  }
  for (const [{ id, law }, parameters] of replaced) {
    const fault = law.fault?.(parameters);
    if (fault)
      issues.push(
        issue(
          'impossible',
          `/parameters/${id}.${fault.key}`,
          parameters[fault.key],
          fault.wanted,
          `This needs ${fault.wanted}.`,
        ),
      );
  }
  return issues;
}

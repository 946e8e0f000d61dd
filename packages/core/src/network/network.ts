import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import type { QuantityKind } from '../units/kinds.ts';
import type { Bounds } from '../units/read-quantity.ts';
import { type Branch, balance } from './balance.ts';
import type { ElementConditions, LawParameter } from './element.ts';
import { type Envelope, envelopeOf, narrowOrder } from './envelope.ts';
import { type Fluid, filmOil } from './fluid.ts';
import { COMMON_PARAMETERS } from './laws.ts';
import { turningHead } from './openings.ts';
import { elementOf, fluidOf, issue, quantityAt, type ReadElement, shown } from './read.ts';
import { DEFAULT_SMOOTHING } from './schema.ts';
import { graphOf, outlined } from './shape.ts';

interface CompiledElement extends ReadElement {
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

interface Place {
  readonly element: CompiledElement;
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
    readonly elements: readonly CompiledElement[];
    readonly fluid: Fluid;
    readonly smoothing: number;
    readonly envelope: Envelope;
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

const ZERO_CELSIUS = 273.15;
const HEAT = { above: 0, max: 600 } as const;
const POSITIVE = { above: 0 } as const;
/** All nodes begin at 3 bar. */
const START = 3e5;

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
    (element, i): CompiledElement => ({
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
      envelope: envelopeOf(
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
  const { elements, fluid, smoothing, envelope } = network.inside;
  const speed = conditions.speed ?? network.speed;
  const temperature = conditions.temperature ?? network.temperature;
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
  const replaced = replacements(network, conditions.parameters ?? {}, issues);
  if (issues.length > 0) return failed(...issues);

  const celsius = temperature! - ZERO_CELSIUS;
  const films = new Map<number, ElementConditions>();
  const filmAt = (rise: number): ElementConditions => {
    let film = films.get(rise);
    if (!film) {
      film = { ...filmOil(fluid, celsius + rise), speed: speed!, smoothing };
      films.set(rise, film);
    }
    return film;
  };
  const branches = elements.map((element): Branch => {
    const parameters = replaced.get(element.id) ?? element.parameters;
    const film = filmAt(parameters.film_rise!);
    return {
      from: element.from,
      to: element.to,
      law: element.law.flow(parameters, film, element.choices),
      head: turningHead(parameters, film),
      count: parameters.count!,
    };
  });
  const n = network.nodes.length;
  const state = new Float64Array(n).fill(START);
  if (conditions.start?.length === n) state.set(conditions.start);
  const found = balance(branches, envelope, state);
  if (!found.converged)
    return failed(
      issue(
        'not-converged',
        '',
        `an imbalance of ${found.residual} m³/s after ${found.iterations} steps`,
        'a balance at every node',
        'No balance of flows was found. Check for a part of the circuit that nothing feeds or drains, and for sizes far out of proportion.',
      ),
    );
  const pressures: Record<string, number> = {};
  for (let i = 0; i < n; i++) pressures[network.nodes[i]!] = state[i]!;
  const flows: Record<string, number> = {};
  const out = { flow: 0, slope: 0 };
  branches.forEach((branch, i) => {
    const up = branch.from < 0 ? 0 : state[branch.from]!;
    const down = branch.to < 0 ? 0 : state[branch.to]!;
    branch.law(up - down + branch.head, out);
    flows[elements[i]!.id] = branch.count * out.flow;
  });
  return ok({ pressures, flows, state, iterations: found.iterations, residual: found.residual });
}

function replacements(
  network: CompiledNetwork,
  wanted: Readonly<Record<string, number>>,
  issues: Issue[],
): Map<string, Record<string, number>> {
  const replaced = new Map<string, Record<string, number>>();
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
    const parameters = replaced.get(element.id) ?? { ...element.parameters };
    parameters[key] = checked.value;
    replaced.set(element.id, parameters);
  }
  for (const { id, law } of network.inside.elements) {
    const parameters = replaced.get(id);
    const fault = parameters && law.fault?.(parameters);
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
  return replaced;
}

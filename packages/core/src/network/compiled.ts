import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import type { QuantityKind } from '../units/kinds.ts';
import type { Bounds } from '../units/read-quantity.ts';
import type { LawParameter } from './element.ts';
import { type Elimination, eliminationOf } from './elimination.ts';
import { narrowOrder } from './envelope.ts';
import type { PlacedElement } from './flat.ts';
import type { Fluid } from './fluid.ts';
import { COMMON_PARAMETERS } from './laws.ts';
import type { PreparedNetwork } from './prepared.ts';
import { elementOf, fluidOf, quantityAt } from './read.ts';
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

/** Where temperatures of the sump may lie [K]. */
export const HEAT = { above: 0, max: 600 } as const;
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

import type { Issue } from '../issue.ts';
import { exact, type Uncertain } from '../uncertainty/uncertain.ts';
import type { Bounds } from '../units/read-quantity.ts';
import type { CompiledNetwork } from './compiled.ts';
import type { PreparedNetwork } from './prepared.ts';
import { issue } from './read.ts';
import { replacementIssues } from './running-issues.ts';

/** What of a network is uncertain. Quantities that share a source are drawn, and shift, together. */
export interface DrawnNetwork {
  /** `element.parameter` → SI. */
  readonly parameters: Readonly<Record<string, Uncertain>>;
  /** Factor on the viscosity of all films, about 1. */
  readonly viscosityShare?: Uncertain;
  /** Factor on the preload of every relief valve, about 1. */
  readonly reliefPreloadShare?: Uncertain;
}

/** One uncertain quantity and how it is put into the network. */
export interface Lever {
  readonly name: string;
  readonly of: Uncertain;
  readonly put: (value: number) => void;
  /** The nearest value that the quantity can have. */
  readonly held: (value: number) => number;
}

/** A gap cannot be nothing, only as good as nothing: a draw beyond is held at this share of its middle. */
const CLOSED = 1e-4;

const heldIn =
  ({ above, min, below, max }: Bounds, middle: number) =>
  (value: number): number => {
    if (above !== undefined && value <= above) return above + CLOSED * (middle - above);
    if (min !== undefined && value < min) return min;
    if (below !== undefined && value >= below) return below - CLOSED * (below - middle);
    if (max !== undefined && value > max) return max;
    return value;
  };

/** What cannot be drawn, said of the middle values. */
export function drawnIssues(network: CompiledNetwork, drawn: DrawnNetwork): Issue[] {
  const middles = Object.entries(drawn.parameters).map(([name, { value }]) => [name, value] as const);
  const issues = replacementIssues(network, Object.fromEntries(middles));
  for (const key of ['viscosityShare', 'reliefPreloadShare'] as const) {
    const share = drawn[key];
    if (share && !(share.value > 0 && Number.isFinite(share.value)))
      issues.push(
        issue(
          'share',
          `/${key}`,
          share.value,
          'a factor over 0, about 1',
          'Give the factor, not a percentage.',
        ),
      );
  }
  return issues;
}

/** The levers of a prepared network, set to their middles. */
export function leversOf(
  network: CompiledNetwork,
  prepared: PreparedNetwork,
  { parameters, viscosityShare = exact(1), reliefPreloadShare = exact(1) }: DrawnNetwork,
): Lever[] {
  const { shares } = prepared;
  const levers = Object.entries(parameters).map(([name, of]): Lever => {
    const knob = prepared.knob(name)!;
    return {
      name,
      of,
      put: (value) => prepared.set(knob, value),
      held: heldIn(network.inside.places.get(name)!.spec, of.value),
    };
  });
  const positive = (of: Uncertain) => heldIn({ above: 0 }, of.value);
  levers.push(
    {
      name: 'viscosity share',
      of: viscosityShare,
      put: (value) => {
        shares.viscosity = value;
      },
      held: positive(viscosityShare),
    },
    {
      name: 'relief preload share',
      of: reliefPreloadShare,
      put: (value) => {
        shares.reliefPreload = value;
      },
      held: positive(reliefPreloadShare),
    },
  );
  for (const { put, of } of levers) put(of.value);
  return levers;
}

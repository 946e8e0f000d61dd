import type { Caution } from '../issue.ts';
import { balance, leastPivot, type Workroom, workroomOf, worstOf } from './balance.ts';
import { filmConditions, type Shares, SumpConditions, underConditions } from './conditions.ts';
import { addElementFlows } from './element-flows.ts';
import type { Elimination } from './elimination.ts';
import { type Flat, flatOf, type PlacedElement, writeElement } from './flat.ts';
import type { Fluid } from './fluid.ts';
import { imbalance } from './imbalance.ts';
import { tabledEccentricity } from './journal-eccentricity.ts';
import { stretchedLaws } from './stretched-laws.ts';

/** One parameter that can be changed between solves. */
export interface Knob {
  readonly element: number;
  readonly key: string;
  /** Films whose gap it is and all it does; undefined when its element must be read again. */
  readonly gaps: Int32Array | undefined;
}

/** All nodes begin at 3 bar. */
const START = 3e5;
/**
 * Last step of a repeated solve as a share of the highest pressure. Newton squares what is left, so the answer is
 * within thousandths of a pascal; a single answer goes on to the end.
 */
export const REPEATED = 1e-6;
const FINAL = 1e-9;

/** ε of a load is looked up here; the table is filled when the first network is prepared. */
let eccentricities: ((wanted: number) => number) | undefined;

/**
 * A network made ready to be solved many thousand times: columns of numbers instead of elements, conditions set
 * once, only what changed computed again, nothing allocated. It holds one state at a time and is never shared.
 */
export class PreparedNetwork {
  readonly nodes: readonly string[];
  readonly shares: Shares = { viscosity: 1, reliefPreload: 1 };
  private readonly elements: readonly PlacedElement[];
  private readonly fluid: Fluid;
  private readonly smoothing: number;
  private readonly elimination: Elimination;
  private readonly parameters: Record<string, number>[];
  private readonly flat: Flat;
  private readonly room: Workroom;
  private readonly eccentricityOf: (wanted: number) => number;
  private readonly changed = new Set<number>();
  /** Counts up whenever films are numbered anew. */
  private films = 0;

  constructor(network: {
    readonly nodes: readonly string[];
    readonly inside: {
      readonly elements: readonly PlacedElement[];
      readonly fluid: Fluid;
      readonly smoothing: number;
      readonly elimination: Elimination;
    };
  }) {
    const { elements, fluid, smoothing, elimination } = network.inside;
    this.nodes = network.nodes;
    this.elements = elements;
    this.fluid = fluid;
    this.smoothing = smoothing;
    this.elimination = elimination;
    this.parameters = elements.map(({ parameters }) => ({ ...parameters }));
    this.flat = flatOf(network.nodes.length, elements, elimination.slotOf);
    this.room = workroomOf(network.nodes.length, elimination.slots);
    eccentricities ??= tabledEccentricity();
    this.eccentricityOf = eccentricities;
  }

  /** Pressures to start from when none are nearer [Pa]; the sump's zero after the last. */
  coldStart(): Float64Array {
    const state = new Float64Array(this.nodes.length + 1).fill(START);
    state[this.nodes.length] = 0;
    return state;
  }

  /** A parameter by `element.parameter`; undefined when the network has none of that name. */
  knob(name: string): Knob | undefined {
    const dot = name.lastIndexOf('.');
    const element = this.elements.findIndex(({ id }) => id === name.slice(0, dot));
    const key = name.slice(dot + 1);
    const spec = this.elements[element];
    if (!spec || !Object.hasOwn(spec.parameters, key) || Number.isNaN(spec.parameters[key])) return undefined;
    const gaps =
      'pieces' in spec.law
        ? spec.law
            .pieces(spec.parameters, spec.choices)
            .flatMap((piece, k) =>
              piece.shape === 'film' && piece.gapKey === key ? [this.flat.places[element]![k]!] : [],
            )
        : [];
    return { element, key, gaps: gaps.length > 0 ? Int32Array.from(gaps) : undefined };
  }

  value({ element, key }: Knob): number {
    return this.parameters[element]![key]!;
  }

  /** Counts from the next `at`. The value must be one that the law allows. */
  set({ element, key, gaps }: Knob, value: number): void {
    this.parameters[element]![key] = value;
    this.changed.add(element);
    if (gaps) for (let i = 0; i < gaps.length; i++) this.flat.films.gap[gaps[i]!] = value;
    else this.write(element);
  }

  private write(e: number): void {
    const { rises } = this.flat;
    const known = rises.length;
    writeElement(this.flat, this.elements[e]!, e, this.parameters[e]!);
    if (rises.length === known) return;
    this.films++;
    // Every rise that was ever set has its film; too many of them, and all is written anew with those in use.
    if (known <= this.elements.length + 16) return;
    rises.length = 0;
    for (let i = 0; i < this.elements.length; i++)
      writeElement(this.flat, this.elements[i]!, i, this.parameters[i]!);
  }

  /** Whether the parameters that were set can be beside each other. */
  possible(): boolean {
    for (const e of this.changed) {
      const { law, choices } = this.elements[e]!;
      if (law.fault?.(this.parameters[e]!, choices)) return false;
    }
    return true;
  }

  /** Everything as the file has it. */
  restore(): void {
    this.shares.viscosity = 1;
    this.shares.reliefPreload = 1;
    for (const e of this.changed) {
      Object.assign(this.parameters[e]!, this.elements[e]!.parameters);
      this.write(e);
    }
    this.changed.clear();
  }

  /** @param speed  of the crank [rad/s] @param temperature  of the sump [K] */
  conditionsAt(speed: number, temperature: number): SumpConditions {
    const { films, fluid, flat } = this;
    return new SumpConditions(speed, temperature, films, filmConditions(fluid, flat.rises, temperature));
  }

  /** Puts conditions in force, with every parameter as it now is. */
  at(conditions: SumpConditions): void {
    if (conditions.films !== this.films) {
      Object.assign(conditions, filmConditions(this.fluid, this.flat.rises, conditions.temperature));
      conditions.films = this.films;
    }
    underConditions(this.flat, conditions, this.shares, this.smoothing, this.eccentricityOf);
  }

  /**
   * Balances the network under the conditions last set.
   *
   * @param state      start and answer [Pa], in the order of the nodes, the sump's zero after the last
   * @param tolerance  of the last step, as a share of the highest pressure
   * @returns          steps taken, the sign turned when no balance was found, neither from there nor from afresh
   */
  solve(state: Float64Array, tolerance = FINAL): number {
    const steps = balance(this.flat, this.elimination, this.room, this.smoothing, tolerance, state);
    if (steps > 0) return steps;
    // A start far out of this world, as a careless guess may be, leaves no digits to come home by.
    state.fill(START, 0, this.nodes.length);
    return balance(this.flat, this.elimination, this.room, this.smoothing, tolerance, state);
  }

  /** Greatest imbalance of a node at these pressures [m³/s]. */
  residual(state: Float64Array): number {
    imbalance(this.flat, state, this.smoothing, this.room.at);
    return worstOf(this.room.at, this.nodes.length);
  }

  /** Laws that hold only by being stretched at the conditions last set and these pressures. */
  stretched(state: Float64Array): Caution[] {
    imbalance(this.flat, state, this.smoothing, this.room.at);
    return stretchedLaws(
      this.flat,
      this.elements.map(({ id }) => id),
      state,
    );
  }

  /** Flow of each element, all its equal ones together [m³/s]. */
  flows(state: Float64Array): Float64Array {
    const flows = new Float64Array(this.elements.length);
    imbalance(this.flat, state, this.smoothing, this.room.at);
    addElementFlows(this.flat, state, flows);
    return flows;
  }

  /**
   * How one node's pressure answers to a flow put in at any node [Pa per m³/s]: one solve more with the factor of
   * the balance, which is its own transpose.
   */
  answersTo(node: number, state: Float64Array): Float64Array {
    const answer = new Float64Array(this.nodes.length + 1);
    answer[node] = 1;
    imbalance(this.flat, state, this.smoothing, this.room.at);
    this.elimination.factor(this.room.at, leastPivot(this.room.at, this.nodes.length));
    this.elimination.solve(this.room.at, answer);
    return answer;
  }

  /** Outflow less inflow of every node under the conditions now in force, at pressures of another balance [m³/s]. */
  imbalanceAt(state: Float64Array): Float64Array {
    imbalance(this.flat, state, this.smoothing, this.room.next);
    return this.room.next.residual;
  }
}

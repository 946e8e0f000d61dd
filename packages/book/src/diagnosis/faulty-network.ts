import { compiledNetwork, type Knob, PreparedNetwork } from '@fettle/core';
import type { FilledCircuit, FilledParameter } from '../oil/circuit.ts';
import type { Changes } from './family.ts';
import {
  elementsOf,
  GUESS,
  inRig,
  isPump,
  isRelief,
  RELIEF_LEAK,
  type Rig,
  VESSEL,
  VESSEL_PRESSURE,
} from './rigs.ts';

/** Conditions under which a gauge, or a measuring jug, is read. */
export interface Setting {
  readonly rig: Rig;
  /** Of the crank [rad/s] */
  readonly speed: number;
  /** Of the oil [K] */
  readonly temperature: number;
  readonly grade: string;
  /** What was put right before: a fault of it is gone. */
  readonly renewed?: 'oil' | 'relief';
}

/** Departures from the circuit that are no fault: what is assumed, or not measured. */
export interface Departure {
  /** `element.parameter` → factor */
  readonly factors?: Readonly<Record<string, number>>;
  /** Films so much hotter [K]. */
  readonly film?: number;
}

export type Known = 'before-strip' | 'measured';
/** A gauge shows nothing below this [Pa]. */
const LEAST = 10;
const LEAST_FLOW = 1e-12;
/** Last step of a solve as a share of the pressure; Newton squares what is left. */
const NEAR_ENOUGH = 1e-6;
/** A crank that stands still: the solver wants a speed [rad/s]. */
const STANDING = 1e-6;
/** What a parameter is taken to be before any fault. */
export const baseOf = (parameter: FilledParameter, known: Known): number =>
  known === 'measured' ? (parameter.measured?.value ?? parameter.nominal) : parameter.nominal;

/** A circuit in a rig, with one oil, made ready to be solved many times. */
interface Rigged {
  /** `element.parameter` → SI, without a fault. */
  readonly file: Readonly<Record<string, number>>;
  readonly prepared: PreparedNetwork;
  readonly knobs: Map<string, Knob>;
  /** Of the node that is read. */
  readonly node: number;
  /** Of the vessel among the elements; −1 where there is none. */
  readonly vessel: number;
}

/**
 * The one door between diagnosis and the network solver: what would be read at a setting, with a fault and with
 * departures. Answers are kept, since many settings and faults come to the same circuit.
 */
export class FaultyNetwork {
  readonly known: Known;
  private readonly circuits: ReadonlyMap<string, FilledCircuit>;
  /** Fastest speed the sheet names [rad/s] */
  private readonly fullSpeed: number;
  private readonly networks = new Map<string, Rigged>();
  private readonly conditions = new Map<string, ReturnType<PreparedNetwork['conditionsAt']>>();
  private readonly starts = new Map<string, Float64Array>();
  private readonly answers = new Map<string, number>();
  /** Diameter of the jet that the pump delivers through on the bench [m]. */
  readonly jet: number;

  /** @param circuits  by grade of oil, the first being the one filled */
  constructor(circuits: ReadonlyMap<string, FilledCircuit>, known: Known, fullSpeed: number, jet = 2.5e-3) {
    this.circuits = circuits;
    this.known = known;
    this.fullSpeed = fullSpeed;
    this.jet = jet;
  }

  get circuit(): FilledCircuit {
    return [...this.circuits.values()][0]!;
  }

  get grades(): readonly string[] {
    return [...this.circuits.keys()];
  }

  /**
   * Pressure [Pa], or in the leak test flow [m³/s]; above zero.
   *
   * @throws RangeError  when the network finds no balance
   */
  read(setting: Setting, changes: Changes = {}, departures: readonly Departure[] = []): number {
    const rigged = this.riggedFor(setting);
    const viscosity = setting.renewed === 'oil' ? 1 : (changes.viscosity ?? 1);
    const parameters = this.parametersOf(rigged.file, setting, changes, departures);
    const at = `${setting.rig} ${setting.grade} ${setting.speed} ${setting.temperature}`;
    const key = `${at} ${viscosity} ${JSON.stringify(parameters)}`;
    const kept = this.answers.get(key);
    if (kept !== undefined) return kept;
    const answer = this.solved(rigged, setting, at, viscosity, parameters);
    this.answers.set(key, answer);
    return answer;
  }

  private solved(
    { file, prepared, knobs, node, vessel }: Rigged,
    { rig, speed, temperature }: Setting,
    at: string,
    viscosity: number,
    parameters: Readonly<Record<string, number>>,
  ): number {
    const set = (name: string, value: number): void => {
      let knob = knobs.get(name);
      if (!knob) {
        knob = prepared.knob(name);
        if (!knob) throw new RangeError(`the circuit has no ${name}`);
        knobs.set(name, knob);
      }
      prepared.set(knob, value);
    };
    let conditions = this.conditions.get(at);
    if (!conditions) {
      conditions = prepared.conditionsAt(rig === 'leak-test' ? STANDING : speed, temperature);
      this.conditions.set(at, conditions);
    }
    const running = conditions;
    const start = this.starts.get(at);
    const state = start ? start.slice() : prepared.coldStart();
    const balanced = (): void => {
      prepared.at(running);
      if (prepared.solve(state, NEAR_ENOUGH) < 0) throw new RangeError('no balance of flows was found.');
    };
    prepared.restore();
    prepared.shares.viscosity = viscosity;
    for (const name in parameters) if (parameters[name] !== file[name]) set(name, parameters[name]!);
    if (!prepared.possible()) throw new RangeError('a size is out of proportion.');
    balanced();
    if (vessel >= 0) {
      // The vessel is a pump that leaks far more than the engine: its pressure follows what it sweeps.
      set(`${VESSEL}.displacement`, (GUESS * VESSEL_PRESSURE) / state[node]!);
      balanced();
    }
    if (!start) this.starts.set(at, state.slice());
    return vessel < 0 ? Math.max(state[node]!, LEAST) : Math.max(prepared.flows(state)[vessel]!, LEAST_FLOW);
  }

  private riggedFor({ rig, grade }: Setting): Rigged {
    const name = `${rig} ${grade}`;
    const kept = this.networks.get(name);
    if (kept) return kept;
    const circuit = this.circuits.get(grade);
    if (!circuit) throw new RangeError(`the circuit was not filled with ${grade}.`);
    const base = new Map(circuit.parameters.map((one) => [one.name, baseOf(one, this.known)]));
    const elements = elementsOf(circuit).map((element) =>
      Object.fromEntries(
        Object.entries(element).map(([key, value]) => [key, base.get(`${element.id}.${key}`) ?? value]),
      ),
    );
    const gauge = rig === 'pump-bench' ? 'bench' : circuit.gauge;
    const compiled = compiledNetwork({
      ...circuit.input,
      nodes: undefined,
      gauge,
      elements: inRig(elements, rig, circuit.gauge, this.jet),
    });
    if (!compiled.ok) throw new RangeError(compiled.issues[0]!.message);
    const rigged: Rigged = {
      file: compiled.value.parameters,
      prepared: new PreparedNetwork(compiled.value),
      knobs: new Map(),
      node: compiled.value.nodes.indexOf(gauge),
      vessel: compiled.value.elements.indexOf(VESSEL),
    };
    this.networks.set(name, rigged);
    return rigged;
  }

  /** Only what differs from the file: each one costs a check. */
  private parametersOf(
    file: Readonly<Record<string, number>>,
    setting: Setting,
    changes: Changes,
    departures: readonly Departure[],
  ): Record<string, number> {
    const found: Record<string, number> = {};
    const renewed = setting.renewed === 'relief' ? this.reliefs() : undefined;
    const isRenewed = (name: string) => renewed?.has(name.slice(0, name.indexOf('.'))) === true;
    const multiply = (factors: Readonly<Record<string, number>> | undefined): void => {
      for (const [name, factor] of Object.entries(factors ?? {}))
        if (file[name] !== undefined && !isRenewed(name)) found[name] = (found[name] ?? file[name]) * factor;
    };
    multiply(changes.factors);
    for (const [name, value] of Object.entries(changes.values ?? {}))
      if (file[name] !== undefined && !isRenewed(name)) found[name] = value;
    if (renewed)
      for (const { name, nominal } of this.circuit.parameters)
        if (file[name] !== undefined && file[name] !== nominal && isRenewed(name)) found[name] = nominal;
    let film = 0;
    for (const departure of departures) {
      multiply(departure.factors);
      film += departure.film ?? 0;
    }
    if (film !== 0 && setting.rig === 'engine')
      for (const [name, rise] of Object.entries(file))
        if (rise > 0 && name.endsWith('.film_rise')) found[name] = Math.max(0, rise + film);
    if (setting.rig === 'engine') this.starve(found, file, setting.speed, changes);
    return found;
  }

  /** Air, or too little oil, takes from what the pump sweeps, as if it turned slower; its slip stays. */
  private starve(
    found: Record<string, number>,
    file: Readonly<Record<string, number>>,
    speed: number,
    { air = 0, ceiling }: Changes,
  ): void {
    const reaches = ceiling === undefined ? Number.POSITIVE_INFINITY : (ceiling * this.fullSpeed) / speed;
    // Near the ceiling neither the sweep nor the ceiling alone decides: rounded off over some ten per cent.
    const share = (Number.isFinite(reaches) ? reaches / (1 + reaches ** 8) ** (1 / 8) : 1) * (1 - air);
    if (share === 1) return;
    for (const element of elementsOf(this.circuit)) {
      const name = `${String(element.id)}.speed_ratio`;
      if (isPump(element) && file[name] !== undefined) found[name] = (found[name] ?? file[name]) * share;
    }
  }

  private reliefs(): ReadonlySet<string> {
    return new Set([
      RELIEF_LEAK,
      ...elementsOf(this.circuit).flatMap((one) => (isRelief(one) ? [String(one.id)] : [])),
    ]);
  }
}

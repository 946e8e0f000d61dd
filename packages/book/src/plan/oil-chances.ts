import { exact, jointProbability, standardUncertainty, type Uncertain } from '@fettle/core';
import type { FilledCircuit } from '../oil/circuit.ts';
import { withModelDoubt } from '../oil/model-doubt.ts';
import { gaugePressure, type Running } from '../oil/pressure.ts';
import type { WantedPressure } from '../oil/pressure-limit.ts';
import type { OilModel } from './oil-effects.ts';

/** A pressure that the sheet wants, at its speed and temperature. */
export interface Condition {
  readonly running: Running;
  readonly wanted: WantedPressure;
}

/** Parameters of the circuit that an oil mask changes, and the grade. */
interface State {
  readonly key: string;
  readonly grade: string;
  readonly values: ReadonlyMap<number, Uncertain>;
}

/** Parameters of which it is known which way raises the pressure at the gauge. */
const TIGHTER = /clearance$/;
const STRONGER = /(preload|spring_rate)$/;

/**
 * The one narrow way from the plan to the network: the gauge at a running condition with some parameters set.
 * Each distinct state of the oil is solved once.
 */
export class OilChances {
  readonly model: OilModel;
  readonly conditions: readonly Condition[];
  /** Bit of each offer that touches the oil → its effect. */
  private readonly bits: readonly number[];
  private readonly outranks: (a: number, b: number) => boolean;
  private readonly pressuresByState = new Map<string, Uncertain[]>();
  private readonly chanceByState = new Map<string, number>();
  private readonly hopeByState = new Map<string, boolean>();

  /**
   * @param bits     of `model.effects`, in their order
   * @param outranks whether offer a needs offer b, and so has the last word on what both set
   */
  constructor(
    model: OilModel,
    conditions: readonly Condition[],
    bits: readonly number[],
    outranks: (a: number, b: number) => boolean,
  ) {
    this.model = model;
    this.conditions = conditions;
    this.bits = bits;
    this.outranks = outranks;
  }

  /** How many states were solved with their doubt, at one condition or more. */
  get solved(): number {
    return this.pressuresByState.size;
  }

  /** The gauge at every condition, with what readings and offers leave open. */
  pressures(mask: number): readonly Uncertain[] {
    const state = this.stateOf(mask);
    return this.conditions.map((_, i) => this.pressure(state, i));
  }

  private pressure(state: State, condition: number): Uncertain {
    const known = this.pressuresByState.get(state.key) ?? [];
    this.pressuresByState.set(state.key, known);
    known[condition] ??= gaugePressure(
      this.circuitWith(state.grade, state.values),
      this.conditions[condition]!.running,
      { as: 'measured' },
    );
    return known[condition];
  }

  /**
   * Probability that all conditions are met at once. All of them are no likelier than any one: where one alone is
   * under `atLeast`, its figure is the answer and the others are not solved.
   */
  chance(mask: number, atLeast = 0): number {
    const state = this.stateOf(mask);
    const known = this.chanceByState.get(state.key);
    if (known !== undefined) return known;
    for (const [i, { wanted }] of this.conditions.entries()) {
      const alone = jointProbability([this.pressure(state, i)], [wanted]);
      if (alone < atLeast) return alone;
    }
    const chance = jointProbability(
      this.pressures(mask),
      this.conditions.map(({ wanted }) => wanted),
    );
    this.chanceByState.set(state.key, chance);
    return chance;
  }

  /**
   * That all conditions are met at once when the model's own constants are doubted as well: never surer than it is known
   * how an engine follows the model.
   */
  chanceWithModel(mask: number): number {
    const { grade, values } = this.stateOf(mask);
    const circuit = this.circuitWith(grade, values);
    const pressures = this.pressures(mask).map((q, i) =>
      withModelDoubt(circuit, this.conditions[i]!.running, q),
    );
    return jointProbability(
      pressures,
      this.conditions.map(({ wanted }) => wanted),
    );
  }

  /** Probability of each condition by itself. */
  chancesAlone(mask: number): number[] {
    return this.pressures(mask).map((q, i) => jointProbability([q], [this.conditions[i]!.wanted]));
  }

  /**
   * False only where the best values of what is open leave a pressure under its least: tighter clearances and stronger
   * springs never lower the gauge, so every set between has less than an even chance.
   */
  hopeful(taken: number, open: number): boolean {
    return this.gradesWithin(taken, open).some((grade) => {
      const values = this.bestValues(taken, open);
      if (!values) return true;
      const key = stateKey(grade, values);
      const known = this.hopeByState.get(key);
      if (known !== undefined) return known;
      const circuit = this.circuitWith(grade, values, true);
      const hope = this.conditions.every(
        ({ running, wanted }) =>
          wanted.lower === undefined ||
          gaugePressure(circuit, running, { as: 'measured' }).value >= wanted.lower,
      );
      this.hopeByState.set(key, hope);
      return hope;
    });
  }

  private effectsOf(mask: number) {
    return this.model.effects.flatMap((effect, k) => {
      const bit = this.bits[k]!;
      return mask & (1 << bit) ? [{ effect, bit }] : [];
    });
  }

  private stateOf(mask: number): State {
    const values = new Map<number, Uncertain>();
    const by = new Map<number, number>();
    let grade = this.model.fill;
    for (const { effect, bit } of this.effectsOf(mask)) {
      grade = effect.grade ?? grade;
      for (const [i, value] of effect.values) {
        const before = by.get(i);
        if (before !== undefined && !this.outranks(bit, before)) continue;
        values.set(i, value);
        by.set(i, bit);
      }
    }
    return { key: stateKey(grade, values), grade, values };
  }

  private gradesWithin(taken: number, open: number): string[] {
    const chosen = this.effectsOf(taken).flatMap(({ effect }) => effect.grade ?? []);
    if (chosen.length > 0) return [chosen.at(-1)!];
    return [this.model.fill, ...this.effectsOf(open).flatMap(({ effect }) => effect.grade ?? [])];
  }

  /** For each parameter the best of what is taken or may yet be; undefined where "best" is not known. */
  private bestValues(taken: number, open: number): Map<number, Uncertain> | undefined {
    const { parameters } = this.model.circuits.get(this.model.fill)!;
    const { values } = this.stateOf(taken);
    const best = new Map(values);
    for (const { effect } of this.effectsOf(open))
      for (const [i, value] of effect.values) {
        const { name, measured, nominal } = parameters[i]!;
        const sign = TIGHTER.test(name) ? -1 : STRONGER.test(name) ? 1 : 0;
        if (sign === 0) return undefined;
        const standing = best.get(i)?.value ?? measured?.value ?? nominal;
        if (sign * (value.value - standing) > 0) best.set(i, value);
      }
    return best;
  }

  /** @param bare  without doubts, which costs one solution and not one for every doubt */
  private circuitWith(grade: string, values: ReadonlyMap<number, Uncertain>, bare = false): FilledCircuit {
    const circuit = this.model.circuits.get(grade)!;
    const parameters = circuit.parameters.map((parameter, i) => {
      const q = values.get(i) ?? parameter.measured;
      return q ? { ...parameter, measured: bare ? exact(q.value) : q } : parameter;
    });
    return { ...circuit, parameters };
  }
}

function stateKey(grade: string, values: ReadonlyMap<number, Uncertain>): string {
  const parts = [...values]
    .sort(([a], [b]) => a - b)
    .map(
      ([i, q]) => `${i}=${q.value}±${standardUncertainty(q)}:${q.terms.map(({ source }) => source).join()}`,
    );
  return `${grade}|${parts.join('|')}`;
}

import { type FilledCircuit, gaugePressure } from '@fettle/book';
import { computed, signal } from '@preact/signals';
import { job } from '../../state/job.ts';
import type { Predicted } from './prediction.ts';

/** An engine in thought: repairs made, and parameters as somebody would try them [SI]. It is written nowhere. */
export interface Thought {
  /** In the order they were lifted. */
  readonly repairs: readonly string[];
  /** By the parameter's name. */
  readonly values: Readonly<Record<string, number>>;
}

const NOTHING: Thought = { repairs: [], values: {} };

/** It belongs to the engine it was thought of. */
const kept = signal<{ readonly job: string | undefined; readonly thought: Thought }>({
  job: undefined,
  thought: NOTHING,
});

export const thought = computed<Thought>(() => (kept.value.job === job.value ? kept.value.thought : NOTHING));
const think = (next: Thought): void => {
  kept.value = { job: job.value, thought: next };
};

const withoutThese = (
  values: Thought['values'],
  names: readonly string[],
): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(values).filter(([name]) => !names.includes(name)));

const namesOf = ({ parameters }: FilledCircuit, repair: string): string[] =>
  parameters.filter((one) => one.repair === repair).map(({ name }) => name);

/** Lifts a tread, or puts it back; what was tried of it goes with either. */
export function turned(circuit: FilledCircuit, repair: string): void {
  const { repairs, values } = thought.value;
  think({
    repairs: repairs.includes(repair) ? repairs.filter((one) => one !== repair) : [...repairs, repair],
    values: withoutThese(values, namesOf(circuit, repair)),
  });
}

/** Tries parameters of one repair; were it lifted, that is taken back. */
export function tried(repair: string, values: Thought['values']): void {
  const now = thought.value;
  think({
    repairs: now.repairs.filter((one) => one !== repair),
    values: { ...now.values, ...values },
  });
}

/** What was tried of these goes back to what was measured. */
export function putBack(names: readonly string[]): void {
  think({ ...thought.value, values: withoutThese(thought.value.values, names) });
}

export const allPutBack = (): void => think(NOTHING);

export const isNothing = ({ repairs, values }: Thought): boolean =>
  repairs.length === 0 && Object.keys(values).length === 0;

/** What of the thought this circuit knows. */
export function thoughtIn({ parameters }: FilledCircuit, { repairs, values }: Thought): Thought {
  const known = new Set(parameters.map(({ name }) => name));
  const made = new Set(parameters.map(({ repair }) => repair));
  return {
    repairs: repairs.filter((one) => made.has(one)),
    values: Object.fromEntries(Object.entries(values).filter(([name]) => known.has(name))),
  };
}

/** The gauge at the same conditions with the engine as thought. */
export const rowsLifted = (
  circuit: FilledCircuit,
  rows: readonly Predicted[],
  of: Thought,
): readonly Predicted[] =>
  isNothing(of)
    ? rows
    : rows.map((row) => ({ ...row, measured: gaugePressure(circuit, row, { as: 'tried', ...of }) }));

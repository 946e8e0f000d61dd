import { type FilledCircuit, gaugePressure } from '@fettle/book';
import { computed, signal } from '@preact/signals';
import { job } from '../../state/job.ts';
import type { Predicted } from './prediction.ts';

/** They belong to the engine they were thought of. */
const kept = signal<{ readonly job: string | undefined; readonly repairs: readonly string[] }>({
  job: undefined,
  repairs: [],
});

/** Repairs made in thought, in the order they were lifted. They are written nowhere. */
export const lifted = computed<readonly string[]>(() =>
  kept.value.job === job.value ? kept.value.repairs : [],
);

/** Lifts a tread, or puts it back. */
export function turned(repair: string): void {
  const repairs = lifted.value.includes(repair)
    ? lifted.value.filter((one) => one !== repair)
    : [...lifted.value, repair];
  kept.value = { job: job.value, repairs };
}

export function allPutBack(): void {
  kept.value = { job: job.value, repairs: [] };
}

/** The gauge at the same conditions with these repairs made. */
export const rowsLifted = (
  circuit: FilledCircuit,
  rows: readonly Predicted[],
  repairs: readonly string[],
): readonly Predicted[] =>
  repairs.length === 0
    ? rows
    : rows.map((row) => ({ ...row, measured: gaugePressure(circuit, row, { as: 'repaired', repairs }) }));

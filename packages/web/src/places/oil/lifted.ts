import { type FilledCircuit, gaugePressure } from '@fettle/book';
import { signal } from '@preact/signals';
import type { Predicted } from './prediction.ts';

/** Repairs made in thought, in the order they were lifted. They are written nowhere. */
export const lifted = signal<readonly string[]>([]);

export function turned(repair: string): void {
  lifted.value = lifted.value.includes(repair)
    ? lifted.value.filter((one) => one !== repair)
    : [...lifted.value, repair];
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

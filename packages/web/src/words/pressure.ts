import type { Book, FilledCircuit } from '@fettle/book';
import { parseQuantity, printQuantity } from '@fettle/core';

export interface Condition {
  readonly name: string;
  readonly text: string;
  readonly si: number;
}

/** The speeds and temperatures the sheet names. */
export function sheetConditions(book: Book):
  | {
      readonly speeds: readonly { readonly text: string; readonly si: number }[];
      readonly hot: Condition;
      readonly cold?: Condition;
    }
  | undefined {
  const oil = book.sheet?.oil;
  if (!oil) return undefined;
  const speeds = oil.speeds.flatMap((text) => {
    const read = parseQuantity(text, 'speed');
    return read.ok ? [{ text, si: read.value.value }] : [];
  });
  const hot = temperature('hot', oil.hot);
  const cold = oil.cold === undefined ? undefined : temperature('cold', oil.cold);
  return hot && { speeds, hot, ...(cold && { cold }) };
}

function temperature(name: string, text: string): Condition | undefined {
  const read = parseQuantity(text, 'temperature');
  return read.ok
    ? { name, text: printQuantity(read.value.value, 'degC', 0), si: read.value.value }
    : undefined;
}

/** Characteristics whose parameters stand at their nominal value because nothing was measured. */
export const unmeasured = (circuit: FilledCircuit): string[] => [
  ...new Set(
    circuit.parameters.filter(({ measured }) => !measured).map(({ characteristic }) => characteristic.name),
  ),
];

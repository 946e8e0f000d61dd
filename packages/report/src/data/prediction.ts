import {
  type Book,
  type FilledCircuit,
  filledCircuit,
  gaugePressure,
  pressureUnit,
  type Reckoning,
  type Running,
} from '@fettle/book';
import { parseQuantity, printQuantity, type Uncertain } from '@fettle/core';

interface Temperature {
  readonly name: string;
  readonly si: number;
}

interface Condition extends Running {
  readonly sump: string;
  readonly crank: string;
}

export interface Row {
  readonly condition: Condition;
  readonly measured: Uncertain;
  readonly asNew: Uncertain;
}

/** The pressures of one book, reckoned once for summary, table and drawing. */
export interface Prediction {
  readonly circuit: FilledCircuit;
  readonly unit: string;
  readonly rows: readonly Row[];
}

/** Hot first, at the sheet's speeds, then cold; the first is hot idle. */
function conditionsOf(book: Book): Condition[] {
  const oil = book.sheet?.oil;
  if (!oil) return [];
  const temperatures = [
    ['hot', oil.hot],
    ['cold', oil.cold],
  ].flatMap(([name, text]): Temperature[] => {
    const read = text === undefined ? undefined : parseQuantity(text, 'temperature');
    return read?.ok ? [{ name: name!, si: read.value.value }] : [];
  });
  return temperatures.flatMap(({ name, si }) =>
    oil.speeds.flatMap((text) => {
      const read = parseQuantity(text, 'speed');
      if (!read.ok) return [];
      const speed = read.value.value;
      return [
        {
          speed,
          temperature: si,
          sump: `${name}, ${printQuantity(si, 'degC', 0)}`,
          crank: printQuantity(speed, 'rpm', 0),
        },
      ];
    }),
  );
}

/** @returns undefined where the sheet has no circuit; a sentence where it cannot be reckoned */
export function predictionOf(book: Book, reckoning: Reckoning): Prediction | string | undefined {
  if (!book.sheet?.oil) return undefined;
  const circuit = filledCircuit(book, reckoning);
  if (!circuit.ok) return circuit.issues[0]!.message;
  try {
    return {
      circuit: circuit.value,
      unit: pressureUnit(book),
      rows: conditionsOf(book).map((condition) => ({
        condition,
        measured: gaugePressure(circuit.value, condition, { as: 'measured' }),
        asNew: gaugePressure(circuit.value, condition, { as: 'new' }),
      })),
    };
  } catch (error) {
    if (error instanceof RangeError) return `No pressure can be predicted: ${error.message}`;
    throw error;
  }
}

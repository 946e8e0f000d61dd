import {
  type Book,
  type FilledCircuit,
  filledCircuit,
  gaugePressure,
  pressureUnit,
  pressureVerdict,
  pressureWords,
  type Reckoning,
  type Running,
  wantedPressure,
  wantedWords,
} from '@fettle/book';
import { parseQuantity, printQuantity, type Uncertain } from '@fettle/core';
import { STATUS_WORDS } from './judgement.ts';
import { heading, table } from './table.ts';

/** The speeds and temperatures the sheet names. */
export function sheetConditions(
  book: Book,
): { speeds: { text: string; si: number }[]; hot: Temperature; cold?: Temperature } | undefined {
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

export interface Temperature {
  readonly name: string;
  readonly text: string;
  readonly si: number;
}

function temperature(name: string, text: string): Temperature | undefined {
  const read = parseQuantity(text, 'temperature');
  return read.ok ? { name, text, si: read.value.value } : undefined;
}

/** Parameters that stand at their nominal value because nothing was measured. */
export const unmeasured = (circuit: FilledCircuit): string[] => [
  ...new Set(
    circuit.parameters.filter(({ measured }) => !measured).map(({ characteristic }) => characteristic.name),
  ),
];

/** The predicted pressures hot and cold, in brief. */
export function pressureSummary(book: Book, reckoning: Reckoning): string[] {
  const conditions = sheetConditions(book);
  if (!conditions) return [];
  const circuit = filledCircuit(book, reckoning);
  if (!circuit.ok) return [...heading('Predicted oil pressure'), `  ${circuit.issues[0]!.message}`];
  const unit = pressureUnit(book);
  const { hot, cold, speeds } = conditions;
  const rows = [hot, ...(cold ? [cold] : [])].flatMap((t) =>
    speeds.map(({ text, si }) => {
      const running = { speed: si, temperature: t.si };
      const measured = gaugePressure(circuit.value, running, { as: 'measured' });
      return [
        `${t.name}, ${printQuantity(t.si, 'degC', 0)}`,
        text,
        pressureWords(measured, unit),
        pressureWords(gaugePressure(circuit.value, running, { as: 'new' }), unit),
        ...wantedCells(book, running, measured),
      ];
    }),
  );
  const nominal = unmeasured(circuit.value);
  return [
    ...heading(`Predicted oil pressure, ${book.sheet?.oil?.grades[book.sheet.oil.fill]?.name ?? ''}`),
    ...table([['', 'crank', 'as measured', 'as new', 'the sheet wants', ''], ...rows], '  '),
    '  The band is what the readings leave open. The circuit’s own constants are assumed: a real gauge reading',
    '  outranks this.',
    ...(nominal.length > 0 ? [`  Not measured, taken as new: ${nominal.join(', ')}.`] : []),
    '  Where the oil goes and what each repair gives: fettle oil JOB.',
  ];
}

/** What the sheet wants there, and whether the prediction is that: two cells of a row. */
export function wantedCells(book: Book, running: Running, predicted: Uncertain): [string, string] {
  const wanted = wantedPressure(book.sheet, running);
  const verdict = wanted && pressureVerdict(wanted, predicted);
  return wanted && verdict ? [wantedWords(wanted), STATUS_WORDS[verdict]] : ['', ''];
}

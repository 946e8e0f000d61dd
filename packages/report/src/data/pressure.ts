import {
  type Assessment,
  type Book,
  cautionsOver,
  circuitCautionWords,
  type FilledCircuit,
  gaugePressure,
  gaugeReadingsAt,
  pressureVerdict,
  pressureWords,
  repairsOf,
  wantedPressure,
} from '@fettle/book';
import { expanded, inUnit, linear } from '@fettle/core';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import { bandWords, shown, valueWords } from '../words/quantity.ts';
import { sourceWords } from '../words/source.ts';
import { calibrationPages } from './calibration.ts';
import { filmPages } from './films.ts';
import { narrowingPages } from './narrowing.ts';
import { oilFlows } from './oil-flows.ts';
import { planPages } from './plan.ts';
import type { Prediction, Row } from './prediction.ts';
import { pressurePicture } from './pressure-picture.ts';
import { primingPages } from './priming.ts';
import { stairPages } from './stair.ts';
import { STOP_RULES, startUpPages } from './start-up.ts';

function rowLine(book: Book, { condition, measured, asNew }: Row, unit: string) {
  const wanted = wantedPressure(book.sheet, condition);
  return {
    sump: condition.sump,
    crank: condition.crank,
    measured: pressureWords(measured, unit),
    as_new: pressureWords(asNew, unit),
    gauge: gaugeReadingsAt(book, condition)
      .map(({ body }) => `${printedQuantity(body.pressure)} (${body.when.replace('-', ' ')})`)
      .join(', '),
    wanted: wanted ? rangeWords(wanted.printed.lower, wanted.printed.upper) : '',
    source: wanted ? Object.values(sourceWords(book, wanted.printed.source)).join(', ') : '',
    verdict: (wanted && pressureVerdict(wanted, measured)) ?? '',
  };
}

/** The first condition, which is hot idle, for the summary. */
export function hotIdle(book: Book, prediction: Prediction | string | undefined) {
  if (prediction === undefined || typeof prediction === 'string') return null;
  const row = prediction.rows[0];
  return row ? rowLine(book, row, prediction.unit) : null;
}

function parameterLine({
  characteristic,
  factor,
  nominal,
  measured,
  trust,
  name,
}: FilledCircuit['parameters'][number]) {
  // In the measurand of the sheet, which is the one the bench knows.
  const read = measured && linear([{ factor: 1 / factor, of: measured }]);
  const operand = read && ({ kind: 'value', q: read } as const);
  return {
    parameter: name.replaceAll('_', ' '),
    name: characteristic.name,
    factor: factor === 1 ? '' : `× ${Number(factor.toPrecision(4))}`,
    measured: operand ? valueWords(characteristic, operand) : '',
    band: operand ? bandWords(characteristic, operand) : '',
    as_new: shown(characteristic, nominal / factor),
    trust,
  };
}

/** What is less than the last figure shown is no gain. */
const gainWords = (gain: number): string =>
  Math.abs(gain) < 0.05 ? '0.0' : `${gain > 0 ? '+' : '−'}${Math.abs(gain).toFixed(1)}`;

/** Bars of what each single repair would give at hot idle, as shares of the longest. */
function repairBars(book: Book, { circuit, rows, unit }: Prediction) {
  const idle = rows[0];
  if (!idle) return [];
  const bars = [
    { name: 'As measured', q: idle.measured },
    ...repairsOf(circuit).map((repair) => ({
      name: repair,
      q: gaugePressure(circuit, idle.condition, { as: 'repaired', repairs: [repair] }),
    })),
    { name: 'Everything as new', q: idle.asNew },
  ];
  const wanted = wantedPressure(book.sheet, idle.condition)?.lower;
  const greatest = Math.max(wanted ?? 0, ...bars.map(({ q }) => q.value + expanded(q).U));
  return bars.map(({ name, q }) => ({
    name,
    words: pressureWords(q, unit),
    share: q.value / greatest,
    gain: gainWords(inUnit(q.value - idle.measured.value, unit)),
    wanted: wanted === undefined ? null : wanted / greatest,
  }));
}

/** The oil system: predicted pressure, single repairs and their stair, the plan, what it all rests on. */
export function pressurePages(
  book: Book,
  assessed: Assessment,
  prediction: Prediction | string | undefined,
  now: number,
) {
  const oil = book.sheet?.oil;
  const plan = planPages(book, assessed, now);
  if (!oil || prediction === undefined)
    return { why_not: 'The spec sheet has no oil circuit.', plan, rules: STOP_RULES };
  if (typeof prediction === 'string') return { why_not: prediction, plan, rules: STOP_RULES };
  const grade = oil.grades[oil.fill];
  return {
    why_not: '',
    plan,
    stair: stairPages(book, prediction),
    start_up: startUpPages(book, assessed.reckoning, prediction),
    calibration: calibrationPages(book, prediction.unit),
    priming: primingPages(book, prediction),
    films: filmPages(book, assessed.reckoning, prediction),
    oil: grade
      ? `${grade.name}, ${printedQuantity(grade.kv40)} at 40 °C and ${printedQuantity(grade.kv100)} at 100 °C`
      : oil.fill,
    idle: prediction.rows[0]
      ? `${prediction.rows[0].condition.crank}, ${prediction.rows[0].condition.sump}`
      : '',
    rows: prediction.rows.map((row) => rowLine(book, row, prediction.unit)),
    curve: pressurePicture(book, prediction),
    cautions: cautionsOver(
      prediction.circuit,
      prediction.rows.map(({ condition }) => condition),
    ).map(circuitCautionWords),
    flows: oilFlows(prediction),
    narrowing: narrowingPages(assessed.reckoning, prediction),
    repairs: repairBars(book, prediction),
    rests_on: prediction.circuit.parameters.map(parameterLine),
    taken_as_new: [
      ...new Set(
        prediction.circuit.parameters
          .filter(({ measured }) => !measured)
          .map(({ characteristic }) => characteristic.name),
      ),
    ],
  };
}

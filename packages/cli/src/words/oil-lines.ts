import {
  type Book,
  type CautionOver,
  circuitCautionWords,
  colderIsLess,
  type FilledCircuit,
  gaugeReadingsAt,
  oilShares,
  pressureUnit,
  pressureWords,
  type Running,
  sweptFlow,
  wantedPressure,
} from '@fettle/book';
import { expanded, inUnit, linear, printQuantity, type Spread, type Uncertain } from '@fettle/core';
import { barsText, pressureCurveText } from '@fettle/draw';
import { unmeasured, wantedCells } from './pressure.ts';
import { operandWords, shown } from './quantity.ts';
import { heading, table, wrapped } from './table.ts';

export interface Condition extends Running {
  readonly words: string;
  readonly speedWords: string;
}

export interface Row {
  readonly condition: Condition;
  readonly measured: Uncertain;
  readonly asNew: Uncertain;
  readonly spread?: Spread;
}

export interface Repair {
  readonly repair: string;
  readonly idle: Uncertain;
  readonly cold?: Uncertain;
}

export interface Prediction {
  readonly book: Book;
  readonly circuit: FilledCircuit;
  readonly rows: readonly Row[];
  readonly repairs: readonly Repair[];
  readonly cautions: readonly CautionOver[];
  readonly asFound: boolean;
  readonly grade: string | undefined;
}

export function oilTitle({ book, grade: asked, asFound }: Prediction): string {
  const grade = asked ?? book.sheet?.oil?.fill ?? '';
  return `Gauge pressure predicted, ${book.sheet?.oil?.grades[grade]?.name ?? grade}${asFound ? ', engine as found' : ''}`;
}

/** A prediction in full, for a person. */
export function oilLines(prediction: Prediction): string[] {
  const { book, circuit, rows } = prediction;
  const unit = pressureUnit(book);
  const nominal = unmeasured(circuit);
  return [
    oilTitle(prediction),
    '',
    ...pressureTable(prediction, unit),
    ...curveLines(book, rows, unit),
    ...colderLines(rows),
    ...repairLines(prediction, unit),
    ...flowLines(circuit, rows[0]?.condition),
    ...cautionLines(prediction),
    ...heading('What this rests on'),
    ...parameterLines(circuit),
    nominal.length > 0
      ? `  Not measured, taken as new: ${nominal.join(', ')}.`
      : '  Every clearance in the circuit was measured.',
    '  Bands: what the readings leave open, at about 95 %. The circuit’s own constants (discharge coefficients,',
    '  eccentricities, film temperatures, leak paths) are assumed and carry no band; a real gauge outranks all of this.',
  ];
}

function cautionLines({ cautions }: Prediction): string[] {
  if (cautions.length === 0) return [];
  return [
    ...heading('Caution'),
    ...cautions.flatMap((one) => wrapped(circuitCautionWords(one), 104, '  ')).map((line) => `  ${line}`),
  ];
}

function pressureTable({ book, rows, grade }: Prediction, unit: string): string[] {
  const trials = rows.some(({ spread }) => spread);
  const within = ({ spread }: Row): string =>
    spread
      ? `${inUnit(spread.quantile(0.025), unit).toFixed(1)} to ${inUnit(spread.quantile(0.975), unit).toFixed(1)} ${unit}`
      : '';
  const gauge = ({ condition }: Row): string =>
    gaugeReadingsAt(book, condition, grade)
      .map(({ body }) => `${body.pressure} (${body.when.replace('-', ' ')})`)
      .join(', ');
  const gauged = rows.some((row) => gauge(row) !== '');
  return table(
    [
      [
        'sump',
        'crank',
        'as measured',
        ...(trials ? ['95 % of trials'] : []),
        'as new',
        ...(gauged ? ['a gauge showed'] : []),
        'the sheet wants',
        '',
      ],
      ...rows.map((row) => [
        row.condition.words,
        row.condition.speedWords,
        pressureWords(row.measured, unit),
        ...(trials ? [within(row)] : []),
        pressureWords(row.asNew, unit),
        ...(gauged ? [gauge(row)] : []),
        ...wantedCells(book, row.condition, row.measured),
      ]),
    ],
    '  ',
  );
}

/** What looks wrong and is not. */
const colderLines = (rows: readonly Row[]): string[] =>
  colderIsLess(rows.map(({ condition, measured }) => ({ ...condition, value: measured.value })))
    ? [
        '  Cold can show less than hot at speed: the relief valve holds the pressure at the pump, and thick oil',
        '  loses more of it on the way to the gauge.',
      ]
    : [];

const MARKS = ['●', '○', '◆', '◇'];

function curveLines(book: Book, rows: readonly Row[], unit: string): string[] {
  const temperatures = [...new Set(rows.map(({ condition }) => condition.temperature))].slice(
    0,
    MARKS.length,
  );
  const speeds = [...new Set(rows.map(({ condition }) => condition.speed))].sort((a, b) => a - b);
  if (speeds.length < 2) return [];
  const curves = temperatures.map((t, k) => ({
    mark: MARKS[k]!,
    points: speeds.map((speed) => {
      const row = rows.find(({ condition }) => condition.speed === speed && condition.temperature === t)!;
      return { value: inUnit(row.measured.value, unit), band: inUnit(expanded(row.measured).U, unit) };
    }),
  }));
  const limits = speeds.flatMap((speed, i) =>
    temperatures.flatMap((temperature) => {
      const wanted = wantedPressure(book.sheet, { speed, temperature });
      if (!wanted) return [];
      const { lower, upper } = wanted;
      return [
        {
          speed: i,
          ...(lower !== undefined && { lower: inUnit(lower, unit) }),
          ...(upper !== undefined && { upper: inUnit(upper, unit) }),
        },
      ];
    }),
  );
  const key = temperatures.map((t, k) => `${MARKS[k]} sump ${printQuantity(t, 'degC', 0)}`).join(', ');
  return [
    '',
    `  ${unit}; ${key}; dots: the band; ┴ at least, ┬ at most`,
    ...pressureCurveText(
      speeds.map((speed) => printQuantity(speed, 'rpm', 0)),
      curves,
      limits,
    ).map((line) => `  ${line}`),
  ];
}

function repairLines({ rows, repairs }: Prediction, unit: string): string[] {
  const [idle] = rows;
  if (!idle || repairs.length === 0) return [];
  const bars = [
    { label: 'as measured', q: idle.measured, cold: undefined },
    ...repairs.map(({ repair, idle: q, cold }) => ({ label: repair, q, cold })),
    { label: 'everything as new', q: idle.asNew, cold: undefined },
  ];
  return [
    ...heading(`Each single repair, at ${idle.condition.speedWords} and ${idle.condition.words}`),
    ...barsText(
      bars.map(({ label, q, cold }) => ({
        label,
        value: q.value,
        text: `${pressureWords(q, unit)}${cold ? `   (cold ${pressureWords(cold, unit)})` : ''}`,
      })),
    ).map((line) => `  ${line}`),
  ];
}

const NUMBERED = /[-.]?\d+$/;

/** Flows of like elements together: main-1, main-2 and main-3 are the mains. */
function groupedFlows(circuit: FilledCircuit, idle: Condition): { name: string; flow: number }[] {
  const groups = new Map<string, number>();
  for (const { element, flow, drains } of oilShares(circuit, idle, { as: 'measured' }).shares) {
    // What only passes oil on is counted where the oil ends.
    if (!drains) continue;
    const name = element.replace(NUMBERED, '').replaceAll('-', ' ');
    groups.set(name, (groups.get(name) ?? 0) + flow);
  }
  return [...groups].map(([name, flow]) => ({ name, flow })).sort((a, b) => b.flow - a.flow);
}

function flowLines(circuit: FilledCircuit, idle: Condition | undefined): string[] {
  if (!idle) return [];
  const { shares } = oilShares(circuit, idle, { as: 'measured' });
  const delivered = shares.reduce((sum, { pumps, flow }) => sum + (pumps ? flow : 0), 0);
  const swept = sweptFlow(circuit, idle);
  const litres = (flow: number): string => printQuantity(flow, 'L/min', 2);
  const lost =
    swept === undefined ? [] : [{ name: 'back through the pump', flow: Math.max(0, swept - delivered) }];
  return [
    ...heading(`Where the oil goes, at ${idle.speedWords} and ${idle.words}`),
    ...(swept === undefined ? [] : [`  The pump sweeps ${litres(swept)} and delivers ${litres(delivered)}.`]),
    ...barsText(
      [...lost, ...groupedFlows(circuit, idle)].map(({ name, flow }) => ({
        label: name,
        value: flow,
        text: litres(flow),
      })),
    ).map((line) => `  ${line}`),
  ];
}

function parameterLines(circuit: FilledCircuit): string[] {
  return table(
    circuit.parameters.map(({ name, characteristic, factor, nominal, measured, trust }) => {
      // In the measurand of the sheet, which is the one the bench knows.
      const read = measured && linear([{ factor: 1 / factor, of: measured }]);
      return [
        name,
        factor === 1 ? characteristic.name : `${characteristic.name} × ${factor}`,
        read ? operandWords(characteristic, { kind: 'value', q: read }) : 'NOT MEASURED',
        `as new ${shown(characteristic, nominal / factor)} (${trust})`,
      ];
    }),
    '  ',
  );
}

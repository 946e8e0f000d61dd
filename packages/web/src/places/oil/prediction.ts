import {
  type Book,
  type CautionOver,
  cautionsOver,
  type FilledCircuit,
  filledCircuit,
  gaugePressure,
  oilShares,
  type Reckoning,
  type Running,
  repairsOf,
  sweptFlow,
} from '@fettle/book';
import { type Outcome, printQuantity, type Uncertain } from '@fettle/core';
import { type Condition, sheetConditions } from '../../words/pressure.ts';

/** One speed and temperature with what the gauge would show there. */
export interface Predicted extends Running {
  readonly temperatureWords: string;
  readonly speedWords: string;
  readonly cold: boolean;
  readonly measured: Uncertain;
  readonly asNew: Uncertain;
}

interface Repair {
  readonly repair: string;
  readonly idle: Uncertain;
}

interface OilFlow {
  readonly name: string;
  readonly flow: number;
}

/** Everything the oil place shows. */
export interface Prediction {
  readonly circuit: FilledCircuit;
  readonly rows: readonly Predicted[];
  readonly idle: Predicted;
  readonly repairs: readonly Repair[];
  readonly flows: readonly OilFlow[];
  readonly swept?: number;
  /** What the figures should not be believed in. */
  readonly cautions: readonly CautionOver[];
}

function conditionsOf(book: Book): Omit<Predicted, 'measured' | 'asNew'>[] {
  const conditions = sheetConditions(book);
  if (!conditions) return [];
  const at = ({ si, text }: Condition, cold: boolean) =>
    conditions.speeds.map((speed) => ({
      speed: speed.si,
      temperature: si,
      temperatureWords: text,
      speedWords: printQuantity(speed.si, 'rpm', 0),
      cold,
    }));
  return [...at(conditions.hot, false), ...(conditions.cold ? at(conditions.cold, true) : [])];
}

const NUMBERED = /[-.]?\d+$/;

/** What elements alike are called together: main-1 and main-2 are the mains. */
export const flowName = (element: string): string => element.replace(NUMBERED, '').replaceAll('-', ' ');

/** Flows of like elements together: main-1, main-2 and main-3 are the mains. */
function flowsAt(circuit: FilledCircuit, idle: Running): { flows: OilFlow[]; swept?: number } {
  const { shares } = oilShares(circuit, idle, { as: 'measured' });
  const groups = new Map<string, number>();
  for (const { element, flow, drains } of shares) {
    // What only passes oil on is counted where the oil ends.
    if (!drains) continue;
    const name = flowName(element);
    groups.set(name, (groups.get(name) ?? 0) + flow);
  }
  const delivered = shares.find(({ pumps }) => pumps)?.flow ?? 0;
  const swept = sweptFlow(circuit, idle);
  const lost =
    swept === undefined ? [] : [{ name: 'back through the pump', flow: Math.max(0, swept - delivered) }];
  const ended = [...groups].map(([name, flow]) => ({ name, flow })).sort((a, b) => b.flow - a.flow);
  return { flows: [...lost, ...ended], ...(swept !== undefined && { swept }) };
}

/** @returns undefined where the sheet names no speeds; throws RangeError where the network finds no balance */
export function predicted(
  book: Book,
  reckoning: Reckoning,
  grade: string | undefined,
): Outcome<Prediction> | undefined {
  const circuit = filledCircuit(book, reckoning, grade);
  if (!circuit.ok) return circuit;
  const rows = conditionsOf(book).map((condition) => ({
    ...condition,
    measured: gaugePressure(circuit.value, condition, { as: 'measured' }),
    asNew: gaugePressure(circuit.value, condition, { as: 'new' }),
  }));
  const [idle] = rows;
  if (!idle) return undefined;
  return {
    ok: true,
    value: {
      circuit: circuit.value,
      rows,
      idle,
      repairs: repairsOf(circuit.value).map((repair) => ({
        repair,
        idle: gaugePressure(circuit.value, idle, { as: 'repaired', repairs: [repair] }),
      })),
      ...flowsAt(circuit.value, idle),
      cautions: cautionsOver(circuit.value, rows),
    },
  };
}

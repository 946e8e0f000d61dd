import {
  asFittedNow,
  asFound,
  type Book,
  cautionsOver,
  type FilledCircuit,
  filledCircuit,
  gaugePressure,
  gaugePressureSpread,
  oilShares,
  Reckoning,
  repairsOf,
} from '@fettle/book';
import {
  CATALOGUE,
  failed,
  type Issue,
  type Outcome,
  ok,
  parseQuantity,
  printQuantity,
  standardUncertainty,
  type Uncertain,
} from '@fettle/core';
import type { Context } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { type Condition, oilLines, oilTitle, type Repair, type Row } from '../words/oil-lines.ts';
import { sheetConditions } from '../words/pressure.ts';
import { oilSections, type WantedSections } from './oil-sections.ts';

interface Said extends WantedSections {
  readonly speed?: string[];
  readonly temperature?: string[];
  readonly oil?: string;
  readonly trials?: string;
  readonly seed: string;
  readonly asFound?: boolean;
}

export const registerOil: Register = (program, run) => {
  program
    .command('oil <job>')
    .description(
      'predicted gauge pressure over speed and temperature, where the oil goes, what each single repair gives',
    )
    .option('--speed <speeds...>', 'crank speeds, such as 600rpm; the sheet’s when absent')
    .option('--temperature <temperatures...>', 'of the sump, such as 93degC; the sheet’s when absent')
    .option('--oil <grade>', 'another grade of the sheet')
    .option('--trials <count>', 'also by Monte Carlo, with so many trials')
    .option('--seed <number>', 'of the trials: the same seed gives the same answer', '1')
    .option('--as-found', 'the engine as it came')
    .option('--stair', 'how the loss of pressure is shared among the repairs, at the first condition')
    .option('--lift <repairs...>', 'the stair with these repairs made; part of a name will do')
    .option('--map', 'the pressure over speed and temperature')
    .option('--narrow', 'which readings, taken better, would narrow the band')
    .option('--flows', 'the circuit node by node: pressures, and where the oil goes')
    .addHelpText(
      'after',
      `
Examples:
  fettle oil linnet
  fettle oil linnet --speed 600rpm 900rpm --temperature 100degC --oil sae40
  fettle oil linnet --trials 10000
  fettle oil linnet --stair
  fettle oil linnet --lift "pump end" "pump radial" main --speed 600rpm --temperature 93degC
  fettle oil linnet --map --oil sae40
  fettle oil linnet --narrow --flows`,
    )
    .action((job: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? predicted(context, bench.value.book(), said) : bench;
      }),
    );
};

/** What is taken for a running engine; wide on purpose, the model itself is narrower. SI. */
const RUNNING = {
  speed: { from: 0, to: 20_000 * (Math.PI / 30), words: 'a speed over 0 and up to 20000 rpm' },
  temperature: { from: 233.15, to: 473.15, words: 'a temperature of the sump from -40 to 200 degC' },
} as const;

/** The conditions said, or those of the sheet. */
export function conditionsOf(book: Book, said: Pick<Said, 'speed' | 'temperature'>): Outcome<Condition[]> {
  const sheet = sheetConditions(book);
  const issues: Issue[] = [];
  const read = (texts: readonly string[], kind: 'speed' | 'temperature', at: string) =>
    texts.flatMap((text) => {
      const quantity = parseQuantity(text, kind);
      const { from, to, words } = RUNNING[kind];
      if (quantity.ok && quantity.value.value > from && quantity.value.value <= to)
        return [{ text, si: quantity.value.value }];
      issues.push(
        ...(quantity.ok
          ? [
              {
                code: 'number/out-of-range',
                at,
                got: text,
                wanted: words,
                message: `${text} is no ${kind} an engine runs at. Give ${words}.`,
              },
            ]
          : quantity.issues.map((one) => ({ ...one, at }))),
      );
      return [];
    });
  const speeds = said.speed ? read(said.speed, 'speed', '--speed') : (sheet?.speeds ?? []);
  const temperatures = said.temperature
    ? read(said.temperature, 'temperature', '--temperature')
    : sheet
      ? [sheet.hot, ...(sheet.cold ? [sheet.cold] : [])]
      : [];
  if (issues.length > 0) return failed(...issues);
  return ok(
    temperatures.flatMap((t) =>
      speeds.map((speed) => ({
        speed: speed.si,
        temperature: t.si,
        words: printQuantity(t.si, 'degC', 0),
        speedWords: printQuantity(speed.si, 'rpm', 0),
      })),
    ),
  );
}

/** A circuit may find no balance at conditions that nobody meant; that is said, not thrown. */
function predicted(context: Context, book: Book, said: Said): Outcome<Reply> {
  try {
    return balanced(context, book, said);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed({
      code: 'oil/no-balance',
      at: 'conditions',
      got: [...(said.speed ?? []), ...(said.temperature ?? [])].join(', ') || 'the sheet’s conditions',
      wanted: 'conditions an engine runs at',
      message: `The circuit cannot be solved there: ${error.message} Give speeds and temperatures an engine runs at.`,
    });
  }
}

function balanced(context: Context, book: Book, said: Said): Outcome<Reply> {
  const reckoning = new Reckoning(book, said.asFound ? asFound(book) : asFittedNow(book), CATALOGUE);
  const circuit = filledCircuit(book, reckoning, said.oil);
  if (!circuit.ok) return circuit;
  const conditions = conditionsOf(book, said);
  if (!conditions.ok) return conditions;
  const trials = said.trials === undefined ? undefined : Number(said.trials);
  const seed = Number(said.seed);
  if (
    (trials !== undefined && !(Number.isInteger(trials) && trials >= 100 && trials <= 1_000_000)) ||
    !Number.isInteger(seed)
  )
    return failed({
      code: 'number/out-of-range',
      at: '--trials',
      got: `${said.trials}, seed ${said.seed}`,
      wanted: '100 to 1000000 trials, a whole number for the seed',
      message: 'Give --trials from 100 to 1000000 and a whole number for --seed.',
    });
  if (trials !== undefined && context.io.watched)
    context.io.err(`Solving the circuit ${trials} times for each condition …\n`);
  const sections = oilSections(said, {
    book,
    reckoning,
    circuit: circuit.value,
    conditions: conditions.value,
    said: said.speed !== undefined || said.temperature !== undefined,
    grade: said.oil,
    seed,
  });
  if (!sections.ok) return sections;
  const rows = conditions.value.map((condition) =>
    pressureRow(circuit.value, condition, trials === undefined ? undefined : { trials, seed }),
  );
  const idle = conditions.value[0];
  const repairs = idle ? repairRows(circuit.value, idle, conditions.value) : [];
  const prediction = {
    book,
    circuit: circuit.value,
    rows,
    repairs,
    cautions: cautionsOver(circuit.value, conditions.value),
    asFound: said.asFound === true,
    grade: said.oil,
  };
  return ok({
    json: {
      ...oilJson(book, circuit.value, rows, repairs, idle),
      cautions: prediction.cautions.map(({ code, message, at }) => ({ code, message, at })),
      ...Object.fromEntries(sections.value.map(({ key, json }) => [key, json])),
    },
    // What was asked for by name stands alone.
    text: (sections.value.length > 0
      ? [oilTitle(prediction), ...sections.value.flatMap(({ lines }) => lines)]
      : oilLines(prediction)
    ).join('\n'),
  });
}

function pressureRow(
  circuit: FilledCircuit,
  condition: Condition,
  trials: { trials: number; seed: number } | undefined,
): Row {
  return {
    condition,
    measured: gaugePressure(circuit, condition, { as: 'measured' }),
    asNew: gaugePressure(circuit, condition, { as: 'new' }),
    ...(trials && { spread: gaugePressureSpread(circuit, condition, { as: 'measured' }, trials) }),
  };
}

/** What each repair alone would give at idle, and cold where a cold condition is shown. */
function repairRows(circuit: FilledCircuit, idle: Condition, all: readonly Condition[]): Repair[] {
  const cold = all.find((one) => one.speed === idle.speed && one.temperature !== idle.temperature);
  return repairsOf(circuit).map((repair) => ({
    repair,
    idle: gaugePressure(circuit, idle, { as: 'repaired', repairs: [repair] }),
    ...(cold && { cold: gaugePressure(circuit, cold, { as: 'repaired', repairs: [repair] }) }),
  }));
}

function oilJson(
  book: Book,
  circuit: FilledCircuit,
  rows: readonly Row[],
  repairs: readonly Repair[],
  idle: Condition | undefined,
) {
  const q = (one: Uncertain) => ({ value: one.value, standard_uncertainty: standardUncertainty(one) });
  return {
    job: book.job,
    gauge: circuit.gauge,
    pressures: rows.map(({ condition, measured, asNew, spread }) => ({
      speed: condition.speed,
      temperature: condition.temperature,
      measured: q(measured),
      as_new: q(asNew),
      monte_carlo: spread && {
        mean: spread.mean,
        standard_uncertainty: spread.u,
        from: spread.quantile(0.025),
        to: spread.quantile(0.975),
        lost: spread.lost,
      },
    })),
    repairs: repairs.map(({ repair, idle: hot, cold }) => ({ repair, idle: q(hot), cold: cold && q(cold) })),
    flows: idle ? oilShares(circuit, idle, { as: 'measured' }).shares : [],
    parameters: circuit.parameters.map((one) => ({
      name: one.name,
      characteristic: one.characteristic.id,
      nominal: one.nominal,
      trust: one.trust,
      repaired: one.repaired,
      measured: one.measured && q(one.measured),
      entries: one.entries,
    })),
    input: circuit.input,
  };
}

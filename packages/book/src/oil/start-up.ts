import {
  expanded,
  failed,
  linear,
  type Outcome,
  ok,
  parseQuantity,
  type QuantityKind,
  standardUncertainty,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import { instrumentTerms } from '../assess/instrument.ts';
import { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import { asFittedNow, asFound } from '../assess/selection.ts';
import type { Answer } from '../assess/verdict.ts';
import type { Book, Written } from '../fold/book.ts';
import { filledCircuit } from './circuit.ts';
import { withModelDoubt } from './model-doubt.ts';
import { gaugePressure, type Running } from './pressure.ts';
import { pressureVerdict, type WantedPressure, wantedPressure } from './pressure-limit.ts';

/** No pressure on the gauge within so many seconds of turning: stop. Common practice, no source. */
export const STOP_AFTER_SECONDS = 10;

/** What a gauge reading says beside what the readings of the engine foretell there. */
export interface GaugeJudgement {
  readonly running: Running;
  /** The gauge, with its own doubt [Pa] */
  readonly shown: Uncertain;
  /** The prediction, the model's doubt in it [Pa] */
  readonly expected: Uncertain;
  /**
   * As expected while the two differ by no more than both doubts together explain, at about 95 %;
   * `no-pressure` where the gauge cannot be told from nothing.
   */
  readonly answer: 'as-expected' | 'lower' | 'higher' | 'no-pressure';
  /** Where the sheet wants a pressure just there. */
  readonly wanted?: { readonly limit: WantedPressure; readonly verdict: Answer };
  /** The failed check of the gauge that puts the reading in doubt: it can still stop the engine, and proves nothing. */
  readonly doubted?: string;
  /** Stop the engine: no pressure, or lower than expected, or proven under what the sheet wants. */
  readonly stop: boolean;
}

/** Pressure to expect, with the readings' doubt and the model's [Pa]. */
export function expectedPressure(
  book: Book,
  reckoning: Reckoning,
  running: Running,
  grade?: string,
): Outcome<Uncertain> {
  const circuit = filledCircuit(book, reckoning, grade);
  if (!circuit.ok) return circuit;
  try {
    return ok(
      withModelDoubt(circuit.value, running, gaugePressure(circuit.value, running, { as: 'measured' })),
    );
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed({
      code: 'oil/no-balance',
      at: '',
      got: 'a speed and temperature at which the circuit finds no balance',
      wanted: 'conditions an engine runs at',
      message: `The circuit cannot be solved there: ${error.message}`,
    });
  }
}

/**
 * Judges one gauge reading at once: readings taken as found against the engine as found, later ones against what is
 * fitted now.
 *
 * @returns issues where the reading has no temperature, no known gauge, or there is no circuit
 */
export function gaugeJudgement(
  book: Book,
  catalogue: Catalogue,
  { entry, body }: Pick<Written<'gauge-reading'>, 'entry' | 'body'>,
): Outcome<GaugeJudgement> {
  const si = (text: string | undefined, kind: QuantityKind): number | undefined => {
    const read = text === undefined ? undefined : parseQuantity(text, kind);
    return read?.ok ? read.value.value : undefined;
  };
  const speed = si(body.speed, 'speed');
  const temperature = si(body.temperature, 'temperature');
  const pressure = si(body.pressure, 'pressure');
  if (speed === undefined || pressure === undefined || temperature === undefined)
    return failed({
      code: 'gauge/no-temperature',
      at: '/temperature',
      got: body.temperature ?? 'none',
      wanted: 'the temperature of the oil',
      message:
        'How hot was the oil? Without its temperature nothing can be expected of the gauge. Read it again with the temperature.',
    });
  const instrument = book.instruments.get(body.instrument);
  const terms = instrument && instrumentTerms(book.instruments, instrument, 'pressure', pressure, entry.id);
  if (!terms)
    return failed({
      code: 'instrument/unknown',
      at: '/instrument',
      got: body.instrument,
      wanted: 'a gauge whose uncertainty is declared',
      message: `The gauge "${body.instrument}" is not declared with an uncertainty in pressure. Declare it first.`,
    });
  const running = { speed, temperature };
  const reckoning = new Reckoning(
    book,
    body.when === 'as-found' ? asFound(book) : asFittedNow(book),
    catalogue,
  );
  const expected = expectedPressure(book, reckoning, running, body.oil);
  if (!expected.ok) return expected;
  const shown = uncertain(pressure, ...terms);
  const judgement = judged(book, running, shown, expected.value);
  const doubted = book.reopened.get(entry.id);
  if (doubted === undefined) return ok(judgement);
  const { wanted } = judgement;
  return ok({
    ...judgement,
    doubted,
    ...(wanted && { wanted: { ...wanted, verdict: 'cannot-tell' as const } }),
  });
}

function judged(book: Book, running: Running, shown: Uncertain, expected: Uncertain): GaugeJudgement {
  const difference = linear([
    { factor: 1, of: shown },
    { factor: -1, of: expected },
  ]);
  const apart = Math.abs(difference.value) > expanded(difference).U;
  const limit = wantedPressure(book.sheet, running);
  const verdict = limit && pressureVerdict(limit, shown);
  const nothing = shown.value <= expanded(shown).U && expected.value > 2 * standardUncertainty(shown);
  const answer = !apart ? 'as-expected' : difference.value > 0 ? 'higher' : nothing ? 'no-pressure' : 'lower';
  const under = verdict === 'out' && limit?.lower !== undefined && shown.value < limit.lower;
  return {
    running,
    shown,
    expected,
    answer,
    ...(limit && verdict && { wanted: { limit, verdict } }),
    stop: answer === 'no-pressure' || answer === 'lower' || under,
  };
}

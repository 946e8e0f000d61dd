import {
  type Book,
  expectedPressure,
  gaugeJudgement,
  pressureWords,
  type Reckoning,
  startUpWords,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import type { Prediction } from './prediction.ts';

/** Read before the key is turned, every time. */
export const STOP_RULES = startUpWords.stopRules('look for the cause');

/** Stop rules, what the gauge should show, and every gauge reading judged by what was to be expected there. */
export function startUpPages(book: Book, reckoning: Reckoning, { rows, unit }: Prediction) {
  const readings = book.gaugeReadings.map((reading) => {
    const { body } = reading;
    const at = {
      when_taken: body.when.replace('-', ' '),
      at: [body.speed, body.temperature ?? 'temperature not said'].map(printedQuantity).join(', '),
    };
    const judged = gaugeJudgement(book, CATALOGUE, reading);
    if (!judged.ok)
      return {
        ...at,
        shown: printedQuantity(body.pressure),
        expected: '',
        answer: `not judged: ${judged.issues[0]!.message}`,
        stop: '',
        wanted: '',
        verdict: '',
      };
    const { shown, expected, stop, wanted } = judged.value;
    return {
      ...at,
      shown: pressureWords(shown, unit),
      expected: pressureWords(expected, unit),
      answer: startUpWords.answerWords(judged.value),
      stop: stop ? 'STOP' : '',
      wanted: wanted ? rangeWords(wanted.limit.printed.lower, wanted.limit.printed.upper) : '',
      verdict: wanted?.verdict ?? '',
    };
  });
  return {
    rules: STOP_RULES,
    cautions: startUpWords.START_CAUTIONS,
    expected: expectedGrid(book, reckoning, rows, unit),
    started: book.gaugeReadings.some(({ body }) => body.when !== 'as-found'),
    readings,
    rests_on: startUpWords.expectedGrounds('as the engine stood when the gauge was read'),
  };
}

/** Sump down, crank speeds across. */
function expectedGrid(book: Book, reckoning: Reckoning, rows: Prediction['rows'], unit: string) {
  const cranks = [...new Set(rows.map(({ condition }) => condition.crank))];
  const sumps = [...new Set(rows.map(({ condition }) => condition.sump))];
  return {
    cranks,
    lines: sumps.map((sump) => ({
      sump,
      cells: cranks.map((crank) => {
        const row = rows.find(({ condition }) => condition.sump === sump && condition.crank === crank);
        const expected = row && expectedPressure(book, reckoning, row.condition);
        return expected?.ok ? pressureWords(expected.value, unit) : '';
      }),
    })),
  };
}

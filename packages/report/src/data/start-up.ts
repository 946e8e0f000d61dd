import {
  type Book,
  expectedPressure,
  type GaugeJudgement,
  gaugeJudgement,
  MODEL_SHARE,
  pressureWords,
  type Reckoning,
  STOP_AFTER_SECONDS,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import type { Prediction } from './prediction.ts';

/** Read before the key is turned, every time. */
export const STOP_RULES = [
  `No pressure on the gauge within ${STOP_AFTER_SECONDS} s of turning: STOP (common practice, no source). Prime again; do not try once more to see.`,
  'Pressure that falls away, or a knock: STOP at once, ignition off.',
  'Lower on the gauge than is expected here: STOP, then look for the cause.',
];

const CAUTIONS = [
  'Extinguisher within reach, a second person at the key; no fuel leak, no rag, no ladder near belt and fan. Exhaust goes outdoors.',
  'Hot oil burns: no plug, filter or hose is opened while it is hot. The maker’s own instructions for first start outrank this.',
];

const ANSWERS: Readonly<Record<GaugeJudgement['answer'], string>> = {
  'as-expected': 'as expected',
  lower: 'LOWER than expected',
  higher: 'higher than expected',
  'no-pressure': 'NO PRESSURE',
};

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
    const { shown, expected, answer, stop, wanted } = judged.value;
    return {
      ...at,
      shown: pressureWords(shown, unit),
      expected: pressureWords(expected, unit),
      answer: ANSWERS[answer],
      stop: !stop ? '' : answer === 'as-expected' ? 'STOP: under what the sheet wants' : 'STOP',
      wanted: wanted ? rangeWords(wanted.limit.printed.lower, wanted.limit.printed.upper) : '',
      verdict: wanted?.verdict ?? '',
    };
  });
  return {
    rules: STOP_RULES,
    cautions: CAUTIONS,
    expected: expectedGrid(book, reckoning, rows, unit),
    started: book.gaugeReadings.some(({ body }) => body.when !== 'as-found'),
    readings,
    rests_on: `At about 95 %, from the clearances as the engine stood when the gauge was read and a doubt of ${100 * MODEL_SHARE} % (standard) in the model itself: a guess, no source. Common practice, no source: about 10 psi for each 1000 rpm hot.`,
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

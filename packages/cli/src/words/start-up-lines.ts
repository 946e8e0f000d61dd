import {
  type Book,
  type GaugeJudgement,
  pressureUnit,
  pressureWords,
  startUpWords,
  wantedWords,
} from '@fettle/book';
import { printQuantity, type Uncertain } from '@fettle/core';
import { STATUS_WORDS } from './judgement.ts';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 100;

export const STOP_RULES = startUpWords.stopRules('fettle diagnose');

/** One gauge reading judged, in one or two lines. */
export function gaugeJudgementLines(book: Book, judgement: GaugeJudgement): string[] {
  const { answer, wanted, stop } = judgement;
  return [
    `${startUpWords.besideWords(book, judgement)}: ${startUpWords.answerWords(judgement)}.`,
    ...(wanted ? [`The sheet wants ${wantedWords(wanted.limit)}: ${STATUS_WORDS[wanted.verdict]}.`] : []),
    ...(stop ? [`${startUpWords.STOP_NOW} Then: fettle diagnose.`] : []),
    ...(answer === 'higher' ? [startUpWords.HIGHER] : []),
  ];
}

export interface ExpectedAt {
  readonly speed: number;
  readonly temperature: number;
  readonly expected: Uncertain;
}

/** The stop rules, what to expect while it warms up, and the readings so far. */
export function startUpLines(
  book: Book,
  expectations: readonly ExpectedAt[],
  readings: readonly { readonly when: string; readonly judgement: GaugeJudgement }[],
): string[] {
  const unit = pressureUnit(book);
  const speeds = [...new Set(expectations.map(({ speed }) => speed))];
  const temperatures = [...new Set(expectations.map(({ temperature }) => temperature))];
  const cell = (t: number, n: number): string => {
    const found = expectations.find(({ speed, temperature }) => speed === n && temperature === t);
    return found ? pressureWords(found.expected, unit) : '';
  };
  const listed = (lines: readonly string[]) =>
    lines.flatMap((line) => wrapped(line, WIDTH, '  ').map((one) => `  ${one}`));
  return [
    'STOP RULES',
    ...listed(STOP_RULES.map((rule, i) => `${i + 1}. ${rule}`)),
    ...heading('Caution'),
    ...listed(startUpWords.START_CAUTIONS),
    ...heading('What the gauge should show'),
    ...table(
      [
        ['sump', ...speeds.map((speed) => printQuantity(speed, 'rpm', 0))],
        ...temperatures.map((t) => [printQuantity(t, 'degC', 0), ...speeds.map((speed) => cell(t, speed))]),
      ],
      '  ',
    ),
    ...listed([
      startUpWords.expectedGrounds('as fitted now'),
      'Enter each reading as it is taken: fettle gauge JOB 30psi 900rpm --temperature 60degC --with GAUGE --when start-up. It is judged at once.',
    ]),
    ...(readings.length === 0
      ? []
      : [
          ...heading('Readings so far'),
          ...readings.flatMap(({ when, judgement }) => {
            const { speed, temperature } = judgement.running;
            const [first, ...more] = gaugeJudgementLines(book, judgement);
            return [
              ...listed([
                `${when}, ${printQuantity(speed, 'rpm', 0)}, ${printQuantity(temperature, 'degC', 0)}: ${first}`,
              ]),
              ...more.map((line) => `    ${line}`),
            ];
          }),
        ]),
  ];
}

import {
  type Book,
  type GaugeJudgement,
  MODEL_SHARE,
  pressureUnit,
  pressureWords,
  STOP_AFTER_SECONDS,
} from '@fettle/book';
import { printQuantity, type Uncertain } from '@fettle/core';
import { STATUS_WORDS } from './judgement.ts';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 100;

/** Read before the key is turned, every time. */
export const STOP_RULES = [
  `No pressure on the gauge within ${STOP_AFTER_SECONDS} s of turning: STOP (common practice, no source). Prime again; do not try once more to see.`,
  'Pressure that falls away, or a knock: STOP at once, ignition off.',
  'Lower on the gauge than is expected here: STOP, then fettle diagnose.',
];

export const START_CAUTIONS = [
  'Extinguisher within reach, a second person at the key; no fuel leak, no rag, no ladder near belt and fan. Exhaust goes outdoors.',
  'Hot oil burns: no plug, filter or hose is opened while it is hot. The maker’s own instructions for first start outrank this.',
];

const ANSWERS: Readonly<Record<GaugeJudgement['answer'], string>> = {
  'as-expected': 'as expected',
  lower: 'LOWER than expected',
  higher: 'higher than expected',
  'no-pressure': 'NO PRESSURE',
};

/** One gauge reading judged, in one or two lines. */
export function gaugeJudgementLines(
  book: Book,
  { shown, expected, answer, wanted, stop }: GaugeJudgement,
): string[] {
  const unit = pressureUnit(book);
  return [
    `${pressureWords(shown, unit)} on the gauge; expected ${pressureWords(expected, unit)}: ${ANSWERS[answer]}.`,
    ...(wanted
      ? [`The sheet wants ${wantedText(wanted.limit.printed)}: ${STATUS_WORDS[wanted.verdict]}.`]
      : []),
    ...(stop ? ['STOP the engine. Then: fettle diagnose.'] : []),
    ...(answer === 'higher'
      ? [
          'Higher than expected: do not rev it cold; oil thicker than said, a blocked passage or a stuck relief valve show so.',
        ]
      : []),
  ];
}

const wantedText = ({
  lower,
  upper,
}: {
  readonly lower?: string | undefined;
  readonly upper?: string | undefined;
}) =>
  lower !== undefined && upper !== undefined
    ? `${lower} to ${upper}`
    : lower !== undefined
      ? `at least ${lower}`
      : `at most ${upper}`;

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
    ...listed(START_CAUTIONS),
    ...heading('What the gauge should show'),
    ...table(
      [
        ['sump', ...speeds.map((speed) => printQuantity(speed, 'rpm', 0))],
        ...temperatures.map((t) => [printQuantity(t, 'degC', 0), ...speeds.map((speed) => cell(t, speed))]),
      ],
      '  ',
    ),
    ...listed([
      `At about 95 %, from the clearances as fitted now and a doubt of ${100 * MODEL_SHARE} % (standard) in the model itself: a guess, no source. Common practice, no source: about 10 psi for each 1000 rpm hot.`,
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

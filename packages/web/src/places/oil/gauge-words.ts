import {
  type Book,
  type GaugeJudgement,
  pressureUnit,
  pressureWords,
  STOP_AFTER_SECONDS,
} from '@fettle/book';
import { STATUS_WORDS } from '../../words/judgement.ts';
import { wantedWords } from '../../words/pressure.ts';

/** Read before the key is turned, every time. */
export const STOP_RULES = [
  `No pressure on the gauge within ${STOP_AFTER_SECONDS} s of turning: STOP (common practice, no source). Prime again; do not try once more to see.`,
  'Pressure that falls away, or a knock: STOP at once, ignition off.',
  'Lower on the gauge than is expected here: STOP, then weigh the faults below.',
];

export const START_CAUTIONS = [
  'Extinguisher within reach, a second person at the key; no fuel leak, no rag, no ladder near belt and fan. Exhaust goes outdoors.',
  'Hot oil burns: no plug, filter or hose is opened while it is hot. The maker’s own instructions for first start outrank this.',
];

export const ANSWERS: Readonly<Record<GaugeJudgement['answer'], string>> = {
  'as-expected': 'As expected',
  lower: 'Lower than expected',
  higher: 'Higher than expected',
  'no-pressure': 'No pressure',
};

/** What stood on the gauge beside what was expected, and what the sheet wants. */
export function besideWords(book: Book, { shown, expected, wanted }: GaugeJudgement): string {
  const unit = pressureUnit(book);
  return `${pressureWords(shown, unit)} on the gauge, expected ${pressureWords(expected, unit)}.${
    wanted
      ? ` The sheet wants ${wantedWords(wanted.limit)}: ${STATUS_WORDS[wanted.verdict].toLowerCase()}.`
      : ''
  }`;
}

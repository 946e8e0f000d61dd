import { MODEL_DOUBT_WORDS } from '../diagnosis/doubts.ts';
import type { Book } from '../fold/book.ts';
import { type GaugeJudgement, STOP_AFTER_SECONDS } from '../oil/start-up.ts';
import { pressureUnit, pressureWords } from './pressure.ts';

/** Read before the key is turned, every time. @param next  what looks for the cause there: `weigh the faults below` */
export const stopRules = (next: string): string[] => [
  `No pressure on the gauge within ${STOP_AFTER_SECONDS} s of turning: STOP (common practice, no source). Prime again; do not try once more to see.`,
  'Pressure that falls away, or a knock: STOP at once, ignition off.',
  `Lower on the gauge than is expected here: STOP, then ${next}.`,
];

export const START_CAUTIONS: readonly string[] = [
  'Extinguisher within reach, a second person at the key; no fuel leak, no rag, no ladder near belt and fan. Exhaust goes outdoors.',
  'Hot oil burns: no plug, filter or hose is opened while it is hot. The maker’s own instructions for first start outrank this.',
];

/** What the pressures to expect rest on. @param clearances  whose clearances: `as fitted now` */
export const expectedGrounds = (clearances: string): string =>
  `At about 95 %, from the clearances ${clearances} and the doubts of the model’s own constants, one deviation each: ${MODEL_DOUBT_WORDS}; guesses, no source. Common practice, no source: about 10 psi for each 1000 rpm hot.`;

const ANSWERS: Readonly<Record<GaugeJudgement['answer'], string>> = {
  'as-expected': 'as expected',
  lower: 'LOWER than expected',
  higher: 'higher than expected',
  'no-pressure': 'NO PRESSURE',
};

/** `LOWER than expected`; what can be as expected and still is no reason to run on says so. */
export const answerWords = ({
  answer,
  stop,
  doubted,
}: Pick<GaugeJudgement, 'answer' | 'stop' | 'doubted'>): string =>
  `${ANSWERS[answer]}${stop && (answer === 'as-expected' || answer === 'higher') ? ', but under what the sheet wants' : ''}${doubted === undefined ? '' : ', by a gauge that failed its check: take it again with one that is right'}`;

export const STOP_NOW = 'STOP the engine, ignition off.';

/** What stood on the gauge beside what was to be expected there. */
export function besideWords(book: Book, { shown, expected }: GaugeJudgement): string {
  const unit = pressureUnit(book);
  return `${pressureWords(shown, unit)} on the gauge, expected ${pressureWords(expected, unit)}`;
}

export const HIGHER =
  'Higher than expected: do not rev it cold; oil thicker than said, a blocked passage or a stuck relief valve show so.';

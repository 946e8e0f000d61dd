import { type Book, priming, primingWords } from '@fettle/book';
import type { Prediction } from './prediction.ts';

const cautions = primingWords.PRIMING_CAUTIONS;

/** Whether the pump, with the clearances it has, lifts oil to itself before the first start, and what to do. */
export function primingPages(book: Book, { circuit }: Prediction) {
  const found = priming(book, circuit);
  if (!found.ok)
    return { why_not: found.issues[0]!.message, asks: '', drives: [], said: [], steps: [], cautions };
  return {
    why_not: '',
    asks: primingWords.primingQuestion(book, found.value),
    drives: found.value.drives.map((drive) => ({
      ...primingWords.driveWords(book, drive),
      dry_verdict: primingWords.LIFTS[drive.dryVerdict],
      sealed_verdict: primingWords.LIFTS[drive.sealedVerdict],
    })),
    said: primingWords.primingGrounds(found.value),
    steps: primingWords.primingSteps(book, found.value),
    cautions,
  };
}

import { asFittedNow, assessment } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import type { ToPrint } from './build-book.ts';
import { wallPages } from './data/wall.ts';
import { typeset } from './typeset.ts';

/** The wall sheet: what is still to be measured, with boxes to write in, in the order of the screen. */
export async function wallSheetPdf(toPrint: ToPrint): Promise<Uint8Array> {
  const { book, paper, printedAt } = toPrint;
  const { judgements, gates } = assessment(book, asFittedNow(book), CATALOGUE, Date.parse(printedAt));
  return typeset('wall.typ', wallPages(book, judgements, gates, toPrint), { paper, printedAt });
}

import type { ToPrint } from './build-book.ts';
import { morningPage } from './data/morning.ts';
import { typeset } from './typeset.ts';

/** How the engine was left, on one page that hangs on it overnight. */
export async function morningCardPdf(toPrint: ToPrint): Promise<Uint8Array> {
  const { book, paper, printedAt } = toPrint;
  return typeset('card.typ', morningPage(book, toPrint), { paper, printedAt });
}

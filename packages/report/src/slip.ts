import type { ToPrint } from './build-book.ts';
import { slipPages } from './data/slip.ts';
import { typeset } from './typeset.ts';

/**
 * The machine-shop slip: a part a page, with the sizes wanted and boxes for what the shop measured.
 *
 * @param toPrint  `component` is the id of a part; every part decided to be machined when absent
 */
export async function slipPdf(toPrint: ToPrint & { readonly component?: string }): Promise<Uint8Array> {
  const { book, paper, printedAt } = toPrint;
  return typeset('slip.typ', slipPages(book, toPrint), { paper, printedAt });
}

import { type Book, dueWords, moneyWords } from '@fettle/book';
import { whenWords } from '../words/entry.ts';
import { ledgerFingerprint } from './fingerprint.ts';

export interface Printing {
  readonly printedAt: string;
  readonly printedBy?: string;
  /** IANA name of the clock by which what cures is told; the world's time when absent. */
  readonly zone?: string;
}

/** What stands on the first page: which engine, whose, and what tells this state of the ledger from any other. */
export function coverPage(book: Book, { printedAt, printedBy }: Printing) {
  const opened = book.opened;
  const { fingerprint, heads } = ledgerFingerprint(book.entries);
  const last = book.entries.at(-1);
  return {
    title: opened?.body.title ?? 'A job without a title',
    engine: book.sheet?.title ?? 'no spec sheet here',
    year: book.sheet?.year ?? '',
    owner: opened?.body.owner ?? 'not said',
    due: dueWords(book) ?? '',
    cap:
      opened?.body.spending_cap === undefined
        ? ''
        : moneyWords.money(opened.body.spending_cap, moneyWords.currencyOf(book)),
    currency: moneyWords.currencyOf(book) ?? 'none named: sums are bare numbers',
    job: book.job,
    opened: opened ? `${whenWords(opened.entry.at)}, ${opened.entry.who}` : 'not here',
    last: last ? `${whenWords(last.at)}, ${last.who}` : '',
    printed: `${whenWords(printedAt)}${printedBy === undefined ? '' : `, ${printedBy}`}`,
    entries: String(book.entries.length),
    struck: String(book.struck.size),
    sheet_hash: book.sheetHash ?? '',
    fingerprint,
    heads: heads.map(({ device, n, hash }) => ({ device, n: String(n), hash })),
    story: opened?.body.story ?? '',
    summary: book.sheet?.summary ?? '',
  };
}

import {
  asFittedNow,
  asOfWords,
  assessment,
  type Book,
  isQuiet,
  momentWords,
  morningCard,
  morningSections,
  QUIET,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';

interface Printed {
  /** ISO 8601: what cures is told by it. */
  readonly printedAt: string;
  /** IANA name of the clock that is printed; the world's time without one. */
  readonly zone?: string;
}

/** How the engine was left, as plain JSON of texts, by the clock of the printing. */
export function morningPage(book: Book, { printedAt, zone }: Printed) {
  const now = Date.parse(printedAt);
  const card = morningCard(book, assessment(book, asFittedNow(book), CATALOGUE, now).gates, now);
  return {
    title: book.opened?.body.title ?? book.sheet?.title ?? 'A job',
    job: book.job,
    as_of: asOfWords(momentWords(now, zone)),
    quiet: isQuiet(card) ? QUIET : '',
    sections: morningSections(book, card, { now, ...(zone !== undefined && { zone }) }).map(
      ({ heading, lines, caution }) => ({
        heading,
        lines: lines.map(({ words }) => words),
        caution: caution ?? '',
      }),
    ),
    closing: `${book.entries.length} entries were made before this was printed; what was done later is not on it.`,
  };
}

import type { Book } from '../fold/book.ts';

/** So much of an id as names an entry on the command line. */
const NAMED = 13;

/** Where a figure was entered: `2025-04-22 by Kit (01965c85-9320)`, how many where there are several. */
export function entriesWords(book: Book, ids: readonly string[]): string {
  const last = book.entries.findLast(({ id }) => ids.includes(id));
  if (!last) return 'no entries';
  const said = `${last.at.slice(0, 10)} by ${last.who} (${last.id.slice(0, NAMED)})`;
  return ids.length === 1 ? said : `${ids.length} entries, the last ${said}`;
}

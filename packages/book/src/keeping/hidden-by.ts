import type { Book } from '../fold/book.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import type { Cover } from '../sheet/sheet.ts';

/** What a cover names it hides; what no cover names, none may be closed over. */
export function isHiddenBy(book: Book, cover: Cover, what: 'openings' | 'fasteners', id: string): boolean {
  const named = (one: Cover): boolean => (one.hides[what] ?? []).some((pattern) => isMeantBy(pattern, id));
  return named(cover) || !(book.sheet?.covers ?? []).some(named);
}

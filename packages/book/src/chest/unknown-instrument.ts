import { type Issue, issue } from '@fettle/core';
import type { Book } from '../fold/book.ts';

/** @param what  what names it, with its article */
export function unknownInstrument(book: Book, what: string, named: string): Issue {
  const declared = [...book.instruments.keys()].join(', ');
  return issue(
    'instrument/unknown',
    'instrument',
    named || 'none',
    declared || 'an instrument declared before',
    `${what} names a declared instrument (${declared || 'none yet'}).`,
  );
}

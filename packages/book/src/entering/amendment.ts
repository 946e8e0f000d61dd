import { failed, type Outcome, ok } from '@fettle/core';
import { amendedSheet, documentsIn } from '../fold/amendments.ts';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { unknownCharacteristic } from './reading.ts';

/**
 * Holds an amendment against the whole sheet, as amended so far, before it is entered: limits that cross, units that do
 * not fit and relations that break are found now, not when somebody reads.
 */
export function admittedAmendment(
  book: Book,
  body: Body<'characteristic-amended'>,
): Outcome<Body<'characteristic-amended'>> {
  const { sheet } = book;
  if (!sheet || !book.characteristics.has(body.characteristic))
    return failed(unknownCharacteristic(book, body.characteristic));
  // What was amended before may name documents of its own; they are known by their names only, as is this one's.
  const characteristics = [...book.characteristics.values()];
  const documents = { ...sheet.documents };
  for (const { body: earlier } of book.amended.values())
    for (const named of documentsIn(earlier.change)) documents[named] ??= { title: named };
  const amended = amendedSheet({ ...sheet, documents, characteristics }, body, readSheet);
  return amended.ok ? ok(body) : amended;
}

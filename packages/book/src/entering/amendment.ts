import { failed, type Outcome, ok } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { unknownCharacteristic } from './reading.ts';

/**
 * Holds an amendment against the whole sheet before it is entered: limits that cross, units that do not fit and
 * relations that break are found now, not when somebody reads.
 *
 * A document named in an amendment needs no entry on the sheet: its name is what is known of it.
 */
export function admittedAmendment(
  book: Book,
  body: Body<'characteristic-amended'>,
): Outcome<Body<'characteristic-amended'>> {
  const { sheet } = book;
  const before = book.characteristics.get(body.characteristic);
  if (!sheet || !before) return failed(unknownCharacteristic(book, body.characteristic));
  const named = [...documentsIn(body.change)].filter((id) => !(id in sheet.documents));
  const amended = readSheet({
    ...sheet,
    documents: { ...sheet.documents, ...Object.fromEntries(named.map((id) => [id, { title: id }])) },
    characteristics: sheet.characteristics.map((one) =>
      one.id === body.characteristic ? { ...before, ...body.change, id: one.id } : one,
    ),
  });
  return amended.ok ? ok(body) : amended;
}

function* documentsIn(value: unknown): Generator<string> {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value))
    if (key === 'document' && typeof inner === 'string') yield inner;
    else yield* documentsIn(inner);
}

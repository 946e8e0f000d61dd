import type { Assessed, Book } from '@fettle/book';

/** Whether a characteristic was read on parts, or states of parts, that are not fitted: a new piston on the bench. */
export function isReadElsewhere(book: Book, judgements: readonly Assessed[], id: string): boolean {
  const counted = new Set(
    judgements.filter(({ characteristic }) => characteristic.id === id).flatMap(({ entries }) => entries),
  );
  return book.readings.some(
    ({ entry, body }) => body.characteristic === id && !counted.has(entry.id) && !book.struck.has(entry.id),
  );
}

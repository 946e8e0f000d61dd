import type { Book } from '@fettle/book';
import { placeText } from '@fettle/book';

/** `2025-04-22 08:31`: the device's own clock, without what nobody reads; UTC where nothing else is said. */
export function whenWords(at: string): string {
  const match = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2})[^Z+-]*(Z|[+-]\d{2}:?\d{2})?$/.exec(at);
  if (!match) return at;
  const [, day, time, offset = 'Z'] = match;
  return `${day} ${time}${offset === 'Z' || /^[+-]00:?00$/.test(offset) ? '' : ` ${offset}`}`;
}

/** Every entry's number in the order of folding: what the book's other pages call it by. */
export const pageNumbers = (book: Book): ReadonlyMap<string, string> =>
  new Map(book.entries.map(({ id }, i) => [id, `${i + 1}`]));

/** A place as it is written at the bench, in the order of the characteristic's axes. */
export const placeWords = (place: Readonly<Record<string, string>> | undefined, axes?: readonly string[]) =>
  axes ? placeText(place ?? {}, axes) : placeText(place ?? {});

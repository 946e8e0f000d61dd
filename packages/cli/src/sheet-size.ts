import type { Book } from '@fettle/book';
import { failed, type Outcome } from '@fettle/core';

/**
 * A size must be one of the sheet's: the limits move with it, so a slip in its name would judge a ground journal by the
 * limits of a standard one. A sheet without sizes has nothing that could move.
 */
export function unknownSize(book: Book, size: string | undefined): Outcome<never> | undefined {
  const names = [
    ...new Set(
      [...book.characteristics.values()].flatMap(({ sizes }) => (sizes ?? []).map(({ name }) => name)),
    ),
  ];
  if (size === undefined || names.length === 0 || names.includes(size)) return undefined;
  return failed({
    code: 'size/unknown',
    at: '--size',
    got: size,
    wanted: names.join(', '),
    message: `The spec sheet has no size "${size}". Take one of ${names.map((name) => `"${name}"`).join(', ')}, or leave --size out.`,
  });
}

/** What must be said of a size that is on the sheet and cannot be bought. */
export const obtainableWords = (book: Book, size: string | undefined): string =>
  [...book.characteristics.values()].some(({ sizes }) =>
    (sizes ?? []).some(({ name, obtainable }) => name === size && !obtainable),
  )
    ? ` The sheet says that ${size} cannot be bought.`
    : '';

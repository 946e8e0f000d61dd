import type { Issue } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';

type Covered = Body<'supply-offered'>['covers'];

/** Every need that can be named: what goes in the sheet's positions, repairs on offer, and what was wanted. */
export const needNames = (book: Book): string[] => [
  ...new Set([
    ...(book.sheet?.positions ?? []).map(({ id }) => id.replace(/[-.]?\{[^{}]*\}/g, '')),
    ...book.offers.keys(),
    ...book.wants.keys(),
  ]),
];

/** What is covered must be something that can be needed, or it would silently never be bought. */
export function coveredIssues(book: Book, covers: Covered): Issue[] {
  const known = needNames(book);
  const sizes = new Set(
    [...book.characteristics.values()].flatMap((one) => (one.sizes ?? []).map(({ name }) => name)),
  );
  return covers.flatMap(({ need, size }): Issue[] => [
    ...(known.includes(need)
      ? []
      : [
          {
            code: 'supply/unknown-need',
            at: 'covers',
            got: need,
            wanted: known.join(', ') || 'something wanted',
            message: `Nothing is needed under "${need}". A need is ${known.slice(0, 12).join(', ')}${known.length > 12 ? ' …' : ''}; say what else is wanted with "fettle want".`,
          },
        ]),
    ...(size === undefined || sizes.has(size)
      ? []
      : [
          {
            code: 'supply/unknown-size',
            at: 'covers',
            got: size,
            wanted: [...sizes].join(', ') || 'no sizes',
            message: `The spec sheet has no size "${size}". It has ${[...sizes].join(', ') || 'none'}.`,
          },
        ]),
  ]);
}

import type { Part } from '@fettle/book';
import type { ToPrint } from './build-book.ts';
import { type TagsAsked, tagPages } from './data/tags.ts';
import { typeset } from './typeset.ts';

/**
 * Tags to cut out or peel off, one for each part.
 *
 * @param toPrint  `parts` are ids; every part of the book when absent
 */
export async function tagsPdf(
  toPrint: ToPrint & TagsAsked & { readonly parts?: readonly string[] },
): Promise<Uint8Array> {
  const { book, paper, printedAt, parts = [...book.parts.keys()] } = toPrint;
  const wanted = parts.flatMap((id): Part[] => {
    const part = book.parts.get(id);
    return part ? [part] : [];
  });
  return typeset('tags.typ', tagPages(book, wanted, toPrint), { paper, printedAt });
}

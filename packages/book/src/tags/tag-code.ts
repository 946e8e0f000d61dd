import { failed, issue, type Outcome, ok } from '@fettle/core';
import type { Book, Part } from '../fold/book.ts';
import { shortId, shortIdMeant } from './short-id.ts';

/**
 * What the square code of a tag says: the part's id, and with it the page's address of that part where one is known. An
 * address ends in the id, so that it can be read off without any page.
 *
 * @param page  where the page is served, such as `http://192.0.2.7:8737/`
 */
export const tagCode = (book: Book, part: string, page?: string): string =>
  page === undefined ? part : `${page.replace(/#.*$/, '').replace(/\/*$/, '/')}#/${book.job}/part/${part}`;

/** The hash of an address on a tag. */
const ADDRESS = /#\/([^/\s]+)\/part\/([^/\s?#]+)\/?$/i;

/** Whether somebody scanned a tag rather than said something. */
export const isTagAddress = (text: string): boolean => ADDRESS.test(text.trim());

/**
 * The part that is meant by its id, by its short id, or by what a scanner types off its tag.
 *
 * @returns  one part, or an issue: `tag/other-job`, `tag/short-id-shared`, `tag/no-such-part`
 */
export function partSought(book: Book, text: string): Outcome<Part> {
  const said = text.trim();
  const [, job, tagged] = ADDRESS.exec(said) ?? [];
  if (job !== undefined && job.toLowerCase() !== book.job)
    return failed(
      issue(
        'tag/other-job',
        'tag',
        job,
        book.job,
        'This tag belongs to another job. Look which engine the part is from before it is put down here.',
      ),
    );
  const id = (tagged ?? said).toLowerCase();
  const named = book.parts.get(id);
  if (named) return ok(named);
  const short = shortIdMeant(tagged ?? said);
  const alike = [...book.parts.values()].filter((part) => shortId(part.id) === short);
  if (alike.length === 1) return ok(alike[0]!);
  if (alike.length > 1)
    return failed(
      issue(
        'tag/short-id-shared',
        'part',
        said,
        alike.map((part) => part.id).join(', '),
        `Two parts share the short id ${short}: ${alike.map((part) => part.id).join(', ')}. Take the id.`,
      ),
    );
  return failed(
    issue(
      'tag/no-such-part',
      'part',
      said,
      [...book.parts.keys()].slice(0, 16).join(', ') || 'a part of this job; none is entered yet',
      `No part of this job goes by "${said}". Take its id, or the five letters and digits on its tag.`,
    ),
  );
}

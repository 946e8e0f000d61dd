import type { Book, Part } from '../fold/book.ts';
import { positionsOf } from '../sheet/places.ts';
import { positionWords } from '../words/position.ts';
import { shortId } from './short-id.ts';
import { tagCode } from './tag-code.ts';

/** Where a part belongs, and how that is known: it was marked so, stands there, or was found there first. */
export interface Belonging {
  readonly by: 'marked' | 'fitted' | 'found';
  readonly position: string;
  /** As the sheet calls it. */
  readonly name: string;
}

/** What is tied to a part so that it finds its way back. */
export interface Tag {
  readonly part: Part;
  readonly short: string;
  readonly code: string;
  readonly belongs?: Belonging;
  readonly way?: string;
  readonly mark?: string;
  readonly partners: readonly Part[];
}

function belonging(book: Book, part: string): Belonging | undefined {
  const names = new Map(book.sheet ? positionsOf(book.sheet).map((one) => [one.id, positionWords(one)]) : []);
  const at = (by: Belonging['by'], position: string): Belonging => ({
    by,
    position,
    name: names.get(position) ?? position,
  });
  const home = book.marks.get(part)?.body.home;
  if (home !== undefined) return at('marked', home);
  const all = [...book.positions.values()];
  const fitted = all.find(({ now }) => now?.part === part);
  if (fitted) return at('fitted', fitted.id);
  const found = all.find(({ asFound }) => asFound?.part === part);
  return found && at('found', found.id);
}

/** @param page  where the page is served, as in `tagCode` */
export function tagOf(book: Book, part: Part, page?: string): Tag {
  const mark = book.marks.get(part.id)?.body;
  const belongs = belonging(book, part.id);
  const way = mark?.way ?? [...book.positions.values()].find(({ now }) => now?.part === part.id)?.now?.way;
  return {
    part,
    short: shortId(part.id),
    code: tagCode(book, part.id, page),
    ...(belongs && { belongs }),
    ...(way !== undefined && { way }),
    ...(mark?.mark !== undefined && { mark: mark.mark }),
    partners: (mark?.partners ?? []).flatMap((id) => book.parts.get(id) ?? []),
  };
}

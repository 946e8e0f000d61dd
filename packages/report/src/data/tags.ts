import { type Book, type Part, type Tag, type TagSize, tagGrid, tagOf, tagWords } from '@fettle/book';
import { encode } from 'uqr';
import type { Paper } from '../typeset.ts';

export interface TagsAsked {
  readonly paper: Paper;
  readonly size: TagSize;
  /** The first label to print on, counted line by line from 1: those before it were used. */
  readonly from: number;
  /** Where the page is served; the codes hold the parts' ids alone when absent. */
  readonly page?: string;
}

/** Light around a code, in modules: what ISO/IEC 18004 asks for. */
const QUIET = 4;

/** A square code as one path of dark modules, run by run; black on whatever is under it. */
function squareCode(text: string): string {
  // Level Q reads on with a quarter of it under oil.
  const { data, size } = encode(text, { ecc: 'Q', border: QUIET });
  const runs: string[] = [];
  for (const [y, row] of data.entries())
    for (let x = 0; x < size; x++) {
      if (!row[x]) continue;
      const begun = x;
      while (x + 1 < size && row[x + 1]) x += 1;
      runs.push(`M${begun} ${y}h${x + 1 - begun}v1H${begun}z`);
    }
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size} ${size}"><path d="${runs.join('')}" fill="#000"/></svg>`;
}

const tagPage = (tag: Tag) => ({
  name: tagWords.plainName(tag.part),
  short: tag.short,
  id: tag.part.id,
  state: tag.part.current.size ?? '',
  belongs: tag.belongs ? tagWords.belongsWords(tag.belongs) : tagWords.NO_HOME,
  arrow: tag.way === undefined ? '' : tagWords.arrowWord(tag.way),
  way: tag.way ?? '',
  mark: tag.mark ?? '',
  partners: tagWords.partnersWords(tag),
  // Its own key, so that nothing is taken for words.
  svg: squareCode(tag.code),
  alt: tag.code,
});

/** Tags as plain JSON of texts and codes, with where each lies on its sheet. */
export function tagPages(book: Book, parts: readonly Part[], { paper, size, from, page }: TagsAsked) {
  return {
    title: book.opened?.body.title ?? book.sheet?.title ?? 'A job',
    job: book.job.slice(0, 8),
    grid: tagGrid(size, paper),
    from,
    tags: parts.map((part) => tagPage(tagOf(book, part, page))),
  };
}

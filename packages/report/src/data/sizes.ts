import {
  type Assessment,
  type Block,
  type Book,
  jobSizes,
  jobStack,
  sizesWords,
  stacksOf,
  stackWords,
} from '@fettle/book';
import { CATALOGUE } from '@fettle/core';

/** Quick, and fine enough for what a page prints. */
const TRIALS = 20_000;

/** To which sizes the parts go. */
export function sizePages(book: Book, assessed: Assessment) {
  const found = jobSizes(book, assessed, CATALOGUE);
  return found.ok
    ? { blocks: sizesWords.sizeBlocks(book, found.value).map(blockPage), nothing: sizesWords.NO_SIZES }
    : { blocks: [], nothing: found.issues.map(({ message }) => message).join(' ') };
}

/** What sizes add up to by the limits for new parts. */
export function stackPages(book: Book) {
  const blocks = stacksOf(book, CATALOGUE)
    .filter(({ by }) => by.includes('drawing'))
    .flatMap(({ characteristic }) => {
      const found = jobStack(book, { characteristic: characteristic.id, trials: TRIALS }, CATALOGUE);
      return found.ok ? [blockPage(stackWords.stackBlock(book, found.value))] : [];
    });
  return { blocks, nothing: stackWords.NO_STACKS };
}

const blockPage = ({ title, lines, table, notes }: Block) => ({
  title,
  lines,
  head: table?.head ?? [],
  rows: table?.rows ?? [],
  notes,
});

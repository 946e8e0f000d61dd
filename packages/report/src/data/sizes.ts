import {
  type Assessment,
  type Block,
  type Book,
  jobSizes,
  jobStack,
  matchingsTried,
  matchingWords,
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

/** Which part goes where, beside what the order of the box would have given. */
export function matchingPages(book: Book) {
  const tried = matchingsTried(book, 'sum', CATALOGUE);
  return {
    blocks: tried.flatMap((one) =>
      one.found.ok
        ? [blockPage(matchingWords.matchingBlock(matchingWords.matchedName(one), one.found.value))]
        : [],
    ),
    nothing: matchingWords.NOTHING_MATCHED,
    wanting: matchingWords.wantingWords(tried.filter(({ found }) => !found.ok)),
  };
}

const blockPage = ({ title, lines, table, notes }: Block) => ({
  title,
  lines,
  head: table?.head ?? [],
  rows: table?.rows ?? [],
  notes,
});

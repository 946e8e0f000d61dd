/** What is not read and holds nothing, counted apart from what a cover waits for; empty where there is none. */
export const unawaitedWords = (count: number): string =>
  count === 0 ? '' : `A further ${count}, which no cover waits for, ${count === 1 ? 'is' : 'are'} not read.`;

/**
 * An id made of words: `Rod tunnels` is `rod-tunnels`.
 *
 * @param otherwise  where the words leave nothing to make one of
 */
export const idFrom = (words: string, otherwise: string): string =>
  words
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60) || otherwise;

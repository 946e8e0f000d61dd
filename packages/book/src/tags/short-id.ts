import { sha256OfJson } from '@fettle/core';

/** Digits and capitals without I, L, O and U, which are misread. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const LENGTH = 5;

/**
 * A part's id in five letters and digits, to be read off a tag and typed with a glove. It rests on the id alone, so
 * that a tag stays right whatever is entered later; a hundred parts share one by chance once in some seven thousand jobs.
 */
export function shortId(part: string): string {
  let bits = BigInt(`0x${sha256OfJson(part).slice(0, 16)}`);
  let short = '';
  for (let i = 0; i < LENGTH; i++) {
    short += LETTERS[Number(bits & 31n)];
    bits >>= 5n;
  }
  return short;
}

/** As it was meant: small letters, and the four letters that are not in it, read as what they look like. */
export const shortIdMeant = (typed: string): string =>
  typed.trim().toUpperCase().replaceAll('O', '0').replace(/[IL]/g, '1').replaceAll('U', 'V');

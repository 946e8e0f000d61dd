import { type Assessed, furtherMoves, nextMoveWords } from '@fettle/book';
import type { FurtherWords } from './further.ts';

const kept = new WeakMap<Assessed, readonly string[]>();

/** The chances of deciding, reckoned once for each judgement. */
export const furtherFetched: FurtherWords = (reckoning, judgement, say) => {
  const before = kept.get(judgement);
  if (before) return before;
  const found = furtherMoves(reckoning, judgement);
  const words = found ? nextMoveWords.furtherWords(judgement, found, say) : [];
  kept.set(judgement, words);
  return words;
};

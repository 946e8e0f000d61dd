import type { Assessed, nextMoveWords, Reckoning } from '@fettle/book';
import { signal } from '@preact/signals';

export type FurtherWords = (
  reckoning: Reckoning,
  judgement: Assessed,
  say: nextMoveWords.Saying,
) => readonly string[];

/** What else could decide a judgement and how likely; silent until what reckons it has been fetched. */
export const further = signal<FurtherWords>(() => []);

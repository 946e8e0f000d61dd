import type { Caution } from '@fettle/core';
import type { Verdicts } from './verdict.ts';

/** No verdict rests on what is to be taken again: it keeps its figures and says that nobody can tell. */
export function withheld(
  entries: readonly string[],
  again: ReadonlySet<string>,
  verdicts: Verdicts,
): Verdicts {
  if (!entries.some((id) => again.has(id))) return verdicts;
  return Object.fromEntries(
    Object.entries(verdicts).map(([set, verdict]) => [set, { ...verdict, verdict: 'cannot-tell' as const }]),
  );
}

export const TAKE_AGAIN: Caution = {
  code: 'verdict/to-be-taken-again',
  message:
    'To be taken again: a later check of the instrument failed, so nothing read with it since its last good check decides.',
};

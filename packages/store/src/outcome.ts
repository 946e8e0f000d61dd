import type { readEntry } from '@fettle/book';

/** What a person can put right; the same shape as everywhere in the program, taken through the door of book. */
export type Issue = Extract<ReturnType<typeof readEntry>, { ok: false }>['issues'][number];

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] };

export const ok = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const failed = (...issues: readonly Issue[]): Outcome<never> => ({ ok: false, issues });

/**
 * What a person can put right comes back as an issue, never as a throw.
 * The code and the facts are the contract; the words may improve.
 */
export interface Issue {
  /** Stable code, `area/what`, such as `unit/missing`. */
  readonly code: string;
  /** Where: a key, a JSON pointer, or `line 12, column lower`. */
  readonly at: string;
  readonly got: string;
  readonly wanted: string;
  /** One or two plain sentences that end in what to do next. */
  readonly message: string;
}

/** A number is given all the same, with this said beside it. */
export interface Caution {
  readonly code: string;
  /** Of one thing among several that can be cautioned alike: the id of an element. */
  readonly about?: string;
  readonly message: string;
}

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] };

export const ok = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const failed = (...issues: readonly Issue[]): Outcome<never> => ({ ok: false, issues });

/** An issue, its five facts in their usual order. */
export const issue = (code: string, at: string, got: string, wanted: string, message: string): Issue => ({
  code,
  at,
  got,
  wanted,
  message,
});

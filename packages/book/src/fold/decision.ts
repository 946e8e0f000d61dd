import { canonicalJson } from '@fettle/core';
import { bodyOf, type Entry, isKnown } from '../ledger/entry.ts';
import { isBefore } from '../ledger/ledger.ts';

/** Concurrent and different answers to a question that has one. None counts until one is struck or outlived. */
export interface Conflict {
  /** The question, such as `part-fitted at pump-gears`. */
  readonly about: string;
  readonly entries: readonly string[];
}

export interface Decision<E extends Entry> {
  readonly winner?: E;
  readonly conflict?: Conflict;
}

/** What an entry answers, its reasons and remarks left aside: two who say "replace" do not differ by why. */
function answerOf(entry: Entry): string {
  const {
    why: _why,
    note: _note,
    ...answer
  } = isKnown(entry) ? (bodyOf(entry) as Entry['body']) : entry.body;
  return canonicalJson(answer);
}

/**
 * The answer to a single-answer question: the later one, unless writers who did not know of each other differ.
 * While they differ, what stood before, on what all of them had seen, stands still.
 *
 * @param candidates  unstruck entries in folding order
 */
export function decided<E extends Entry>(about: string, candidates: readonly E[]): Decision<E> {
  const heads = candidates.filter((a) => !candidates.some((b) => b !== a && isBefore(a, b)));
  const last = heads.at(-1);
  if (!last) return {};
  const answers = new Set(heads.map(answerOf));
  if (answers.size === 1) return { winner: last };
  const agreed = decided(
    about,
    candidates.filter((entry) => heads.every((head) => isBefore(entry, head))),
  );
  return {
    ...(agreed.winner && { winner: agreed.winner }),
    conflict: { about, entries: heads.map((head) => head.id) },
  };
}

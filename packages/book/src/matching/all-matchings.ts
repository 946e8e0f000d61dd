import type { MatchingObjective, Outcome } from '@fettle/core';
import type { Catalogue } from '../assess/relations.ts';
import type { Book } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { type JobMatching, jobMatching } from './job-matching.ts';
import { type Movable, movablesOf } from './movable.ts';

/** One thing that could be matched: how, or what is still wanted for it. */
export interface MatchingTried extends Movable {
  readonly characteristic: Characteristic;
  readonly found: Outcome<JobMatching>;
}

/** Everything of a job that could be matched, each tried. */
export const matchingsTried = (
  book: Book,
  objective: MatchingObjective,
  catalogue: Catalogue,
): MatchingTried[] =>
  movablesOf(book).map((set) => ({
    ...set,
    found: jobMatching(
      book,
      { characteristic: set.characteristic.id, moves: set.moves, objective },
      catalogue,
    ),
  }));

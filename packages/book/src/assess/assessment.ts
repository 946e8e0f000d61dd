import type { Book } from '../fold/book.ts';
import { type Gate, gateOf } from './gate.ts';
import { type Judgement, judgementsOf } from './judgement.ts';
import { type NextMove, nextMove } from './next-move.ts';
import { Reckoning } from './reckoning.ts';
import type { Catalogue } from './relations.ts';
import type { Selection } from './selection.ts';
import { type TorqueAssessment, torqueAssessment } from './torque.ts';

/** A judgement with what to do about it. */
export interface Assessed extends Judgement {
  readonly next?: NextMove;
}

/** Everything the program holds about a job, for one selection of parts. */
export interface Assessment {
  readonly reckoning: Reckoning;
  /** In the order of the sheet, then of the bench. */
  readonly judgements: readonly Assessed[];
  readonly torques: readonly TorqueAssessment[];
  /** In the order in which the covers go on. */
  readonly gates: readonly Gate[];
}

/**
 * The judgements of one characteristic, with what to do next, without judging all the others. What one place decides
 * for another stays within a characteristic, so nothing is lost.
 */
export function assessed(
  book: Book,
  selection: Selection,
  catalogue: Catalogue,
  characteristic: string,
): readonly Assessed[] {
  const one = book.characteristics.get(characteristic);
  if (!one) return [];
  const reckoning = new Reckoning(book, selection, catalogue);
  return withMoves(reckoning, judgementsOf(reckoning, one));
}

const withMoves = (reckoning: Reckoning, judgements: readonly Judgement[]): Assessed[] =>
  judgements.map((judgement): Assessed => {
    const next = nextMove(reckoning, judgement, judgements);
    return next ? { ...judgement, next } : judgement;
  });

/** @param now  Unix time [ms]; without it nobody can tell whether what cures is cured */
export function assessment(book: Book, selection: Selection, catalogue: Catalogue, now?: number): Assessment {
  const reckoning = new Reckoning(book, selection, catalogue);
  const judgements = withMoves(
    reckoning,
    [...book.characteristics.values()].flatMap((c) => judgementsOf(reckoning, c)),
  );
  const torques = (book.sheet?.fasteners ?? []).map((fastener) => torqueAssessment(book, fastener));
  const covers = [...(book.sheet?.covers ?? [])].sort((a, b) => a.order - b.order);
  return {
    reckoning,
    judgements,
    torques,
    gates: covers.map((cover) => gateOf(book, cover, judgements, torques, now)),
  };
}

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

export function assessment(book: Book, selection: Selection, catalogue: Catalogue): Assessment {
  const reckoning = new Reckoning(book, selection, catalogue);
  const judgements = [...book.characteristics.values()].flatMap((c) => judgementsOf(reckoning, c));
  const assessed = judgements.map((judgement): Assessed => {
    const next = nextMove(reckoning, judgement, judgements);
    return next ? { ...judgement, next } : judgement;
  });
  const torques = (book.sheet?.fasteners ?? []).map((fastener) => torqueAssessment(book, fastener));
  const covers = [...(book.sheet?.covers ?? [])].sort((a, b) => a.order - b.order);
  return {
    reckoning,
    judgements: assessed,
    torques,
    gates: covers.map((cover) => gateOf(book, cover, assessed, torques)),
  };
}

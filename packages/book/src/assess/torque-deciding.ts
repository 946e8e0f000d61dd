import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import type { Body } from '../ledger/bodies.ts';
import { isAt, type Place } from '../sheet/places.ts';
import type { TorqueAssessment } from './torque.ts';
import type { JointProof } from './torque-standing.ts';

/** Whether the doubt of a joint is one that somebody may decide: other threads, or a cover opened over it. */
export const isToBeDecided = ({ doubt }: JointProof): boolean =>
  doubt?.why === 'other-condition' || (doubt?.why === 'undone' && doubt.by.what === 'opened');

/**
 * The decision that logged torques stand although something speaks against them.
 *
 * @param place  of the joint; everywhere when empty
 */
export function torqueDecided(
  { fastener, proofs }: TorqueAssessment,
  place: Place,
  why: string,
): Outcome<Body<'torque-decided'>> {
  const doubted = proofs.filter((proof) => isToBeDecided(proof) && isAt(place, proof.place));
  const passes = [...new Set(doubted.flatMap(({ pass }) => pass?.entry.id ?? []))];
  const issues: Issue[] = [];
  if (passes.length === 0)
    issues.push({
      code: 'torque/nothing-to-decide',
      at: 'fastener',
      got: fastener.id,
      wanted: 'a logged torque on other threads than the sheet’s, or one over which a cover was opened',
      message: `${fastener.name}: there is nothing to decide. A joint that was loosened, refitted or tightened with a wrench that failed its check is tightened again.`,
    });
  if (why.trim() === '')
    issues.push({
      code: 'torque/why-missing',
      at: 'why',
      got: 'no reason',
      wanted: 'why',
      message: 'Say why it stands: the book is believed for its reasons.',
    });
  return issues.length > 0 ? failed(...issues) : ok({ passes, why: why.trim() });
}

import type { Gate } from '../assess/gate.ts';
import type { Book } from '../fold/book.ts';
import { type Astray, partsAstray } from './astray.ts';
import { type Unclean, uncleanParts } from './cleaning.ts';
import { type OpenJoint, openJoints } from './joints.ts';
import { type OpeningCount, openingsOff } from './openings.ts';

/** How the engine was left, for whoever opens the shop. */
export interface MorningCard {
  readonly joints: readonly OpenJoint[];
  readonly openings: readonly OpeningCount[];
  readonly astray: readonly Astray[];
  readonly unclean: readonly Unclean[];
  /** Readings, gauge readings and torques a failed check put in doubt. */
  readonly reopened: number;
  /** Covers that may be closed and are not. */
  readonly closable: readonly Gate[];
}

/** @param now  Unix time [ms] */
export function morningCard(book: Book, gates: readonly Gate[], now: number): MorningCard {
  return {
    joints: openJoints(book, now),
    openings: openingsOff(book),
    astray: partsAstray(book),
    unclean: uncleanParts(book),
    reopened: [...book.readings, ...book.gaugeReadings, ...book.torquePasses].filter(
      ({ standing }) => standing === 'to-be-taken-again',
    ).length,
    closable: gates.filter(({ state, closed }) => state === 'open' && !closed),
  };
}

/** Whether nothing was left that somebody has to know of. */
export const isQuiet = ({ joints, openings, astray, unclean, reopened }: MorningCard): boolean =>
  joints.length + openings.length + astray.length + unclean.length + reopened === 0;

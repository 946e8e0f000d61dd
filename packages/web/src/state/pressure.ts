import type { Answer } from '@fettle/book';
import { signal } from '@preact/signals';

/** The gauge pressure predicted at hot idle, for the one line on the bench. */
export interface IdlePressure {
  readonly words: string;
  readonly speed: string;
  readonly asNew: string;
  readonly wanted?: string;
  readonly verdict?: Answer;
}

/** Undefined while it is not worked out; null where the sheet has no oil circuit. */
export const idlePressure = signal<IdlePressure | null | undefined>(undefined);

import type { PartState } from '../fold/book.ts';
import type { Place } from '../sheet/places.ts';
import type { Witness } from './merging.ts';
import { MISSING, type Operand } from './operand.ts';

/** What is known of a characteristic at one place, all witnesses together. */
export interface Known {
  /** A number where there is one, else an interval, else missing. */
  readonly operand: Operand;
  /** Leaves that cut the number. */
  readonly cut?: Operand & { kind: 'interval' };
  readonly witnesses: readonly Witness[];
  /** False when numbers that should agree do not. */
  readonly consistent: boolean;
  readonly entries: readonly string[];
  /** Readings wanted and not there: characteristic and place. */
  readonly missing: readonly { readonly characteristic: string; readonly place: Place }[];
  readonly states: ReadonlyMap<string, PartState>;
}

/** The operand of a relation with what it rests on. */
export interface Reckoned {
  readonly operand: Operand;
  readonly entries: readonly string[];
  readonly missing: Known['missing'];
  readonly states: ReadonlyMap<string, PartState>;
}

export const NOTHING: Reckoned = { operand: MISSING, entries: [], missing: [], states: new Map() };

export function together(parts: readonly Reckoned[], operand: Operand): Reckoned {
  return {
    operand,
    entries: [...new Set(parts.flatMap((part) => part.entries))],
    missing: parts.flatMap((part) => part.missing),
    states: new Map(parts.flatMap((part) => [...part.states])),
  };
}

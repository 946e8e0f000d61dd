import type { Caution } from '@fettle/core';
import type { PartState } from '../fold/book.ts';
import type { Witness } from './merging.ts';
import { MISSING, type Operand } from './operand.ts';
import type { Noise } from './range-noise.ts';
import type { Spot } from './spot.ts';

/** What is known of a characteristic at one place, all witnesses together. */
export interface Known {
  /** A number where there is one, else an interval, else missing. */
  readonly operand: Operand;
  /** Leaves that cut the number. */
  readonly cut?: Operand & { kind: 'interval' };
  readonly witnesses: readonly Witness[];
  /** False when numbers that should agree do not, here or in anything that this is worked out from. */
  readonly consistent: boolean;
  /** Where they do not agree: this itself, or what it is worked out from. */
  readonly disputes: readonly Spot[];
  readonly cautions: readonly Caution[];
  /** Of greatest less least. */
  readonly noise?: Noise;
  readonly entries: readonly string[];
  /** Readings wanted and not there: characteristic and place. */
  readonly missing: readonly Spot[];
  readonly states: ReadonlyMap<string, PartState>;
}

/** The operand of a relation with what it rests on. */
export interface Reckoned {
  readonly operand: Operand;
  /** Inputs whose witnesses disagree, however far down. */
  readonly disputes: readonly Spot[];
  readonly cautions: readonly Caution[];
  /** Where it is itself a greatest less a least. */
  readonly noise?: Noise;
  readonly entries: readonly string[];
  readonly missing: Known['missing'];
  readonly states: ReadonlyMap<string, PartState>;
}

export const NOTHING: Reckoned = {
  operand: MISSING,
  disputes: [],
  cautions: [],
  entries: [],
  missing: [],
  states: new Map(),
};

/** Each once. */
export const distinct = <T>(all: readonly T[]): T[] => [
  ...new Map(all.map((one) => [JSON.stringify(one), one])).values(),
];

/** An answer with all that its parts rest on; where it has none although they have, with the reason. */
export function together(parts: readonly Reckoned[], operand: Operand): Reckoned {
  const because = operand.kind === 'missing' ? operand.because : undefined;
  const cautions = parts.length === 1 ? parts[0]!.cautions : parts.flatMap((part) => part.cautions);
  const disputes = parts.length === 1 ? parts[0]!.disputes : parts.flatMap((part) => part.disputes);
  return {
    operand,
    disputes: disputes.length > 1 ? distinct(disputes) : disputes,
    cautions: [...(cautions.length > 1 ? distinct(cautions) : cautions), ...noAnswer(because)],
    entries: [...new Set(parts.flatMap((part) => part.entries))],
    missing: parts.flatMap((part) => part.missing),
    states: new Map(parts.flatMap((part) => [...part.states])),
  };
}

export const NO_ANSWER = 'relation/no-answer';

const noAnswer = (because: string | undefined): Caution[] =>
  because === undefined
    ? []
    : [{ code: NO_ANSWER, message: `It cannot be worked out from what was read: ${because}` }];

import {
  type Issue,
  type NewtonMetre,
  type Outcome,
  parseQuantity,
  type Quantity,
  type TorqueAdvice,
  torqueAdvice,
  torqueQuestion,
} from '@fettle/core';
import { unitsMeant } from '../entering/plausible.ts';
import type { Book, TorqueOnRecord } from '../fold/book.ts';
import { type Place, placesOf } from '../sheet/places.ts';
import type { Fastener } from '../sheet/sheet.ts';
import { otherConditionWords } from '../words/torque.ts';
import { adviceIn, caseOf, torqueOf } from './torque-case.ts';
import { isProven, type JointProof, jointProof, otherCondition } from './torque-standing.ts';

/** What the sheet's torque would do to its fastener, and what has been logged against it. */
export interface TorqueAssessment {
  readonly fastener: Fastener;
  /** Advice on the highest torque the sheet names. */
  readonly advice: Outcome<TorqueAdvice>;
  /** Places that no logged pass proves: none at the sheet's torque, or one against which something speaks. */
  readonly unlogged: readonly Place[];
  /** Each place of the joint with the pass that proves it, or why none does. */
  readonly proofs: readonly JointProof[];
  readonly passes: readonly TorqueOnRecord[];
}

/** Two figures of one unit that differ by less than this are the same figure. */
const SAME = 1e-6;

export function torqueAssessment(book: Book, fastener: Fastener): TorqueAssessment {
  const lower = torqueOf(fastener.torque.lower) ?? Number.NaN;
  const upper = torqueOf(fastener.torque.upper ?? fastener.torque.lower) ?? Number.NaN;
  const passes = book.torquePasses.filter(({ body }) => body.fastener === fastener.id);
  const isAtTorque = ({ body }: TorqueOnRecord): boolean => {
    const torque = torqueOf(body.torque);
    return torque !== undefined && torque >= lower * (1 - SAME) && torque <= upper * (1 + SAME);
  };
  const isLast = ({ body }: TorqueOnRecord): boolean => body.pass >= body.of && body.of >= fastener.passes;
  const proofs = placesOf(book.sheet ?? { axes: {} }, fastener).map((place) =>
    jointProof(book, fastener, place, passes, { isLast, isAtTorque }),
  );
  return {
    fastener,
    advice: torqueAdvice({ ...caseOf(fastener), torque: upper as NewtonMetre }),
    unlogged: proofs.filter((proof) => !isProven(proof)).map(({ place }) => place),
    proofs,
    passes,
  };
}

/**
 * The question a torque raises before it is logged: so large that a unit has probably slipped, or off the sheet's
 * figure while the same number in another unit is on it, or applied to threads that are not as the sheet has them.
 *
 * @param condition  of the threads, as found; as on the sheet when absent
 */
export function questionOfTorque(fastener: Fastener, torque: string, condition?: string): Issue | undefined {
  const read = parseQuantity(torque, 'torque');
  if (!read.ok) return undefined;
  return (
    unitQuestion(fastener, read.value) ??
    torqueQuestion({ ...caseOf(fastener), torque: read.value.value as NewtonMetre }) ??
    conditionQuestion(fastener, torque, condition)
  );
}

function conditionQuestion(fastener: Fastener, torque: string, said: string | undefined): Issue | undefined {
  const other = otherCondition(fastener, said);
  if (!other) return undefined;
  return {
    code: 'torque/condition',
    at: 'condition',
    got: other.said,
    wanted: other.sheet,
    message: `${fastener.name}: ${otherConditionWords(other, adviceIn(fastener, torque, other.said))} Were the threads so? It is kept if they were, and does not prove the joint until somebody decides that it stands, and why.`,
  };
}

/** How far beside the sheet's torque the hand may stop [share]. Common practice, no source. */
const HAND = 0.05;

function unitQuestion({ name, torque }: Fastener, said: Quantity): Issue | undefined {
  const lower = torqueOf(torque.lower);
  const upper = torqueOf(torque.upper ?? torque.lower);
  if (lower === undefined || upper === undefined) return undefined;
  const wanted = { from: lower * (1 - HAND), to: upper * (1 + HAND) };
  if (said.value >= wanted.from && said.value <= wanted.to) return undefined;
  const [meant] = unitsMeant(said, 'torque', wanted);
  if (meant === undefined) return undefined;
  const sheet = torque.upper === undefined ? torque.lower : `${torque.lower} to ${torque.upper}`;
  return {
    code: 'torque/unit',
    at: 'torque',
    got: said.text,
    wanted: sheet,
    message: `${name}: ${said.text} is ${(said.value / lower).toFixed(2)} times what the sheet asks for, ${sheet}. Was it ${meant}? Look at the scale of the wrench, then confirm or correct it.`,
  };
}

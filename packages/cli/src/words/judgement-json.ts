import type { Assessed, Further, NextMove, Operand, Verdict } from '@fettle/book';
import { standardUncertainty } from '@fettle/core';

/** What is known, in SI. */
function operandJson(operand: Operand) {
  if (operand.kind === 'missing') return null;
  if (operand.kind === 'value')
    return { value: operand.q.value, standard_uncertainty: standardUncertainty(operand.q) };
  return { lower: operand.lower?.value, upper: operand.upper?.value };
}

const verdictJson = (verdict: Verdict | undefined) =>
  verdict && {
    verdict: verdict.verdict,
    limits: verdict.limits,
    by: verdict.by,
    probability_in: verdict.probabilityIn,
    guard_band: verdict.guardBand,
  };

function nextJson(next: NextMove | undefined) {
  if (!next) return undefined;
  switch (next.move) {
    case 'measure':
      return {
        move: next.move,
        what: next.what.map(({ characteristic, place }) => ({ characteristic: characteristic.id, place })),
      };
    case 'does-not-matter':
      return {
        move: next.move,
        because: { characteristic: next.because.characteristic.id, place: next.because.place },
      };
    case 'try-leaf':
      return {
        move: next.move,
        leaf: next.leaf,
        stack: next.stack,
        tries_left: next.triesLeft,
        expected_tries: next.expectedTries,
        decides: next.decides,
      };
    case 'restore':
      return {
        move: next.move,
        offers: next.offers.map(({ id, price }) => ({ offer: id, price })),
        sizes: [...next.sizes],
      };
    case 'use-instrument':
      return { move: next.move, characteristic: next.characteristic.id, instrument: next.instrument };
    case 'finer-than-owned':
      return {
        move: next.move,
        needed: next.needed,
        after_leaves: next.afterLeaves,
        mostly: next.mostly && { ...next.mostly, of: next.mostly.of.map(({ id }) => id) },
      };
    default:
      return next;
  }
}

const furtherJson = ({ deciding, repeating }: Further) => ({
  deciding: deciding.map(
    ({ name, type, owned, expanded, characteristic, places, sizes, minutes, chance }) => ({
      name,
      type,
      owned,
      expanded,
      characteristic: characteristic.id,
      places,
      sizes: sizes?.map((size) => ({
        characteristic: size.characteristic.id,
        place: size.place,
        name: size.name,
        type: size.type,
        owned: size.owned,
      })),
      minutes,
      chance: { in: chance.in, out: chance.out, decided: chance.decided },
    }),
  ),
  repeating: repeating && {
    name: repeating.name,
    characteristic: repeating.characteristic.id,
    needed: repeating.needed,
    chance: repeating.chance.decided,
  },
});

/** A judgement for programs: SI throughout, ids rather than words. */
export const judgementJson = (judgement: Assessed) => ({
  characteristic: judgement.characteristic.id,
  line: judgement.characteristic.line,
  place: judgement.place,
  status: judgement.status,
  governing: judgement.governing,
  known: operandJson(judgement.operand),
  worst_at: judgement.worstAt,
  new: verdictJson(judgement.verdicts.new),
  wear: verdictJson(judgement.verdicts.wear),
  mean: judgement.mean && { known: operandJson(judgement.mean.operand), verdict: judgement.mean.verdict },
  witnesses: judgement.members.flatMap(({ place, known }) =>
    known.witnesses.map((witness) => ({
      place,
      by: witness.by,
      with: witness.with,
      measurand: witness.measurand,
      known: operandJson(witness.operand),
      entries: witness.entries,
    })),
  ),
  consistent: judgement.consistent,
  missing: judgement.missing,
  cautions: judgement.cautions,
  next: nextJson(judgement.next),
  entries: judgement.entries,
});

/** The same with what could decide it and how likely, where that was asked for. */
export const judgementWithFurther = (judgement: Assessed, further: Further | undefined) => ({
  ...judgementJson(judgement),
  further: further && furtherJson(further),
});

import { conformity, normalQuantile, standardUncertainty } from '@fettle/core';
import { isAt, type Place } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { finerInput, type LargestDoubt, largestDoubt, readingsAt, takesTheSame } from './finer-input.ts';
import { standardUncertaintyOf } from './instrument.ts';
import type { Judgement, Member } from './judgement.ts';
import type { Limits } from './limits.ts';
import { byLeaf, type TryLeaf } from './next-move-by-leaf.ts';
import { type Restore, restoring } from './next-move-restore.ts';
import type { Operand } from './operand.ts';
import type { Reckoning } from './reckoning.ts';
import { RISK } from './verdict.ts';

/** What to do about a judgement that is not settled; facts only, words are made at the edge. */
export type NextMove =
  | { readonly move: 'measure'; readonly what: readonly { characteristic: Characteristic; place: Place }[] }
  | { readonly move: 'look'; readonly wanted: string }
  | TryLeaf
  | {
      readonly move: 'use-instrument';
      readonly characteristic: Characteristic;
      readonly instrument: string;
      readonly name: string;
    }
  /** The number has to be known to this standard uncertainty [SI] before it decides; nothing owned is that fine. */
  | {
      readonly move: 'finer-than-owned';
      readonly needed: number;
      readonly mostly?: LargestDoubt;
      /** Only leaves were tried, and none that is owned lies between: a number is wanted. */
      readonly afterLeaves?: true;
    }
  | { readonly move: 'on-the-limit' }
  | { readonly move: 'does-not-matter'; readonly because: Judgement }
  | { readonly move: 'settle-disagreement' }
  | Restore;

/** @param all  every judgement under the same selection: another one may already decide for the part */
export function nextMove(
  reckoning: Reckoning,
  judgement: Judgement,
  all: readonly Judgement[],
): NextMove | undefined {
  const { status, characteristic } = judgement;
  if (status === 'in' || status === 'no-limits') return undefined;
  if (status === 'out') return characteristic.kind === 'seen' ? undefined : restoring(reckoning, judgement);
  if (characteristic.kind === 'seen') return { move: 'look', wanted: characteristic.wanted ?? '' };
  if (status === 'missing' || judgement.missing.length > 0) return measure(reckoning, judgement);
  const decided = alreadyDecided(judgement, all);
  if (decided) return { move: 'does-not-matter', because: decided };
  if (judgement.again.length > 0) return takeAgain(reckoning, judgement);
  if (!judgement.consistent) return { move: 'settle-disagreement' };
  const undecided = worstMember(judgement);
  const limits = judgement.governing && judgement.verdicts[judgement.governing]?.limits;
  if (!undecided || !limits) return undefined;
  if (undecided.known.operand.kind === 'interval')
    return byLeaf(reckoning, undecided, limits) ?? byInstrument(reckoning, judgement, undecided, limits);
  const move = byInstrument(reckoning, judgement, undecided, limits);
  // Leaves that cut a number may still do so where no instrument is fine enough.
  const isStuck = move?.move === 'finer-than-owned' || move?.move === 'on-the-limit';
  return (isStuck && undecided.known.cut && byLeaf(reckoning, undecided, limits)) || move;
}

function measure(reckoning: Reckoning, judgement: Judgement): NextMove {
  return {
    move: 'measure',
    what: judgement.missing.map(({ characteristic, place }) => ({
      characteristic: reckoning.characteristic(characteristic),
      place,
    })),
  };
}

/** What was read with an instrument whose check failed, each once. */
function takeAgain(reckoning: Reckoning, judgement: Judgement): NextMove {
  const readings = readingsAt(reckoning, judgement.again).map(({ body }) => ({
    characteristic: reckoning.characteristic(body.characteristic),
    place: body.place ?? {},
  }));
  return {
    move: 'measure',
    what: [
      ...new Map(readings.map((one) => [JSON.stringify([one.characteristic.id, one.place]), one])).values(),
    ],
  };
}

/** The same thing at another place of the same part that is already out: the part is machined or replaced anyway. */
function alreadyDecided(judgement: Judgement, all: readonly Judgement[]): Judgement | undefined {
  const own = new Set(judgement.states.map(({ id }) => id));
  if (own.size !== 1) return undefined;
  return all.find(
    (other) =>
      other !== judgement &&
      other.status === 'out' &&
      other.states.length === 1 &&
      own.has(other.states[0]!.id) &&
      other.characteristic.id === judgement.characteristic.id,
  );
}

/**
 * What may be accepted of one place: where all together are not proven although each is, its even share of the whole.
 * @source Bonferroni's inequality
 */
export function riskOf({ governing, verdicts }: Judgement): number {
  return RISK / ((governing && verdicts[governing]?.places) ?? 1);
}

/** The member that decides; without a worst place the first. */
export const worstMember = (judgement: Judgement): Member | undefined =>
  judgement.members.find(({ place }) => judgement.worstAt !== undefined && isAt(judgement.worstAt, place)) ??
  judgement.members[0];

/**
 * An instrument owned that would decide if it read the same: its own uncertainty alone is put in the place of the
 * direct reading's. Of those that would, the coarsest is named: the finest is seldom the quickest.
 */
function byInstrument(
  reckoning: Reckoning,
  judgement: Judgement,
  member: Member,
  limits: Limits,
): NextMove | undefined {
  const { operand } = member.known;
  const nearest = (value: number): number =>
    Math.min(
      ...[limits.lower, limits.upper].flatMap((limit) =>
        limit === undefined ? [] : [Math.abs(value - limit)],
      ),
    );
  if (operand.kind !== 'value') {
    // Leaves are exhausted: any instrument that reads a number tells more than they do.
    return { move: 'finer-than-owned', needed: fineEnough(operand, nearest), afterLeaves: true };
  }
  const { value } = operand.q;
  const u = standardUncertainty(operand.q);
  const apart = nearest(value);
  if (apart < u * 1e-3) return { move: 'on-the-limit' };
  const risk = riskOf(judgement);
  const needed = apart / normalQuantile(1 - risk);
  if (member.known.witnesses.every(({ by }) => by === 'readings')) {
    const { kind } = judgement.characteristic;
    // A depth micrometer is fine enough for many a bore, and cannot reach across it.
    const used = readingsAt(reckoning, member.known.entries).flatMap(
      ({ body }) => reckoning.book.instruments.get(body.instrument)?.body.type ?? [],
    );
    const fit = [...reckoning.book.instruments.values()]
      .filter(({ body }) => used.some((type) => takesTheSame(type, body.type)))
      .flatMap((instrument) => {
        const own = kind === 'seen' ? undefined : standardUncertaintyOf(instrument, kind, value);
        return own !== undefined && own < u ? [{ instrument, own }] : [];
      })
      .filter(({ own }) => conformity({ value, u: own }, limits, risk).verdict !== 'cannot-tell')
      .sort((a, b) => b.own - a.own)[0];
    if (fit)
      return {
        move: 'use-instrument',
        characteristic: judgement.characteristic,
        instrument: fit.instrument.body.instrument,
        name: fit.instrument.body.name,
      };
  }
  const mostly = largestDoubt(reckoning, member, operand.q);
  const better = mostly && finerInput(reckoning, member, mostly, { value, u, limits });
  if (better) return { move: 'use-instrument', ...better };
  return { move: 'finer-than-owned', needed, ...(mostly && { mostly }) };
}

/** A quarter of the bracket; where it is open at one end, what would tell its edge from the limit. */
function fineEnough(operand: Operand, nearest: (value: number) => number): number {
  const { lower, upper } = operand.kind === 'interval' ? operand : {};
  if (lower && upper) return (upper.value - lower.value) / 4;
  const edge = lower ?? upper;
  return edge ? nearest(edge.value) / normalQuantile(1 - RISK) : 0;
}

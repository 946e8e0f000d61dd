import { pooled } from '@fettle/core';
import { INSTRUMENT_TYPES } from '../chest/instrument-types.ts';
import { minutesOf } from '../reading-plan/minutes.ts';
import type { Place } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { better, borrowedOf, type Deciding, LEAST } from './deciding-tool.ts';
import { takesTheSame } from './finer-input.ts';
import { instrumentTerms } from './instrument.ts';
import type { Judgement } from './judgement.ts';
import { type NextMove, riskOf, worstMember } from './next-move.ts';
import { decidingAfterLeaves } from './next-move-after-leaves.ts';
import { placesOf, type ReadWith, readAgain, readWith } from './next-move-again.ts';
import { type Chance, chanceOfDeciding, type Undecided } from './next-move-chance.ts';
import { valued } from './operand.ts';
import type { Reckoning } from './reckoning.ts';
import { verdictOf } from './verdict.ts';

/** Reading again with the same instrument, which only each reading's own share of doubt gets smaller by. */
export interface Repeating {
  readonly name: string;
  readonly type: string;
  readonly characteristic: Characteristic;
  readonly places: readonly Place[];
  /**
   * More rounds of readings until it would be decided, if they read the same on average; `many`: more than anyone
   * would take; undefined: no number is enough.
   */
  readonly needed: number | 'many' | undefined;
  /** Chance that a single more round decides. */
  readonly chance: Chance;
}

/** What could decide a verdict that cannot be told, the one to take up first; and what repeating would do. */
export interface Further {
  readonly deciding: readonly Deciding[];
  readonly repeating?: Repeating;
}

const MOST_REPEATS = 30;
/** As good as endless: what each reading has for itself is gone. */
const ENDLESS = 1e12;

/** The instruments, owned or to borrow, that could decide what cannot be told, with their chances of deciding. */
export function furtherMoves(
  reckoning: Reckoning,
  judgement: Judgement & { readonly next?: NextMove },
): Further | undefined {
  const { status, characteristic, governing, consistent, next } = judgement;
  if (next?.move === 'does-not-matter') return undefined;
  if (status !== 'cannot-tell' || characteristic.kind === 'seen' || !governing) return undefined;
  if (judgement.missing.length > 0 || judgement.again.length > 0 || !consistent) return undefined;
  // While a single leaf owned may decide, no other tool is got out for it.
  if (next?.move !== 'try-leaf' || next.stack) {
    const deciding = decidingAfterLeaves(reckoning, judgement);
    if (deciding.length > 0) return { deciding: deciding.sort(better) };
  }
  const undecided = undecidedOf(judgement);
  if (!undecided) return undefined;
  const whole = undecided.numbers.length > 0 ? pooled(undecided.numbers).value : undefined;
  const groups = whole ? readWith(reckoning, judgement, whole, undecided.numbers) : [];
  const deciding = groups.flatMap((group) => instrumentsFor(reckoning, group, undecided));
  const repeats = groups.map((group) => repeating(reckoning, group, undecided)).sort(sooner)[0];
  return { deciding: deciding.sort(better), ...(repeats && { repeating: repeats }) };
}

function undecidedOf(judgement: Judgement): Undecided | undefined {
  const { governing, characteristic } = judgement;
  const limits = governing && judgement.verdicts[governing]?.limits;
  if (!limits || !governing) return undefined;
  if ((characteristic.reduce?.by ?? 'worst') !== 'worst') {
    const { operand } = judgement;
    if (operand.kind !== 'value') return undefined;
    return { numbers: [operand.q], set: governing, limits };
  }
  const known = worstMember(judgement)?.known;
  if (known?.operand.kind !== 'value') return undefined;
  const numbers = known.witnesses.flatMap(({ operand }) => (operand.kind === 'value' ? [operand.q] : []));
  return {
    numbers,
    set: governing,
    limits,
    risk: riskOf(judgement),
    ...(known.cut && { cut: known.cut }),
  };
}

function instrumentsFor(reckoning: Reckoning, group: ReadWith, undecided: Undecided): Deciding[] {
  const { type } = group.instrument.body;
  const owned = [...reckoning.book.instruments.values()].filter(
    ({ body }) => body.instrument !== group.instrument.body.instrument && takesTheSame(type, body.type),
  );
  const types = new Set([type, ...owned.map(({ body }) => body.type)]);
  const borrowed = [...INSTRUMENT_TYPES.keys()]
    .filter((one) => !types.has(one) && takesTheSame(type, one))
    .flatMap((one) => borrowedOf(reckoning, one, group.characteristic, group.value) ?? []);
  return [...owned, ...borrowed].flatMap((instrument): Deciding[] => {
    const next = readAgain(reckoning, group, instrument, 1);
    const one = instrumentTerms(reckoning.book.instruments, instrument, group.kind, group.value, 'one');
    if (!next || !one) return [];
    const chance = chanceOfDeciding(undecided, next);
    if (chance.decided < LEAST) return [];
    const isOwned = owned.includes(instrument);
    const { setUp, each } = minutesOf(instrument.body.type);
    const places = placesOf(group);
    return [
      {
        ...(isOwned && { instrument: instrument.body.instrument }),
        name: instrument.body.name,
        type: instrument.body.type,
        owned: isOwned,
        expanded: 2 * Math.hypot(...one.map(({ u }) => u)),
        characteristic: group.characteristic,
        places,
        minutes: setUp + each * places.length,
        chance,
      },
    ];
  });
}

/**
 * Rounds of the same readings until the verdict stands, if they read the same on average: with n more than the k taken,
 *
 *     u² = rest² + common² + own² k / (k + n)
 *
 * so that what is common to all readings, and all else, is left however often one reads.
 */
function repeating(reckoning: Reckoning, group: ReadWith, undecided: Undecided): Repeating {
  const { set, limits, cut, numbers, risk } = undecided;
  const others = numbers.filter((one) => one !== group.number);
  const decides = (n: number): boolean => {
    const next = readAgain(reckoning, group, group.instrument, n);
    if (!next) return false;
    const together = pooled([group.number, next]).value;
    const { value } = pooled([...others, { ...together, value: group.number.value }]);
    const verdict = verdictOf(valued(value), cut, set, limits, risk)?.verdict;
    return verdict === 'in' || verdict === 'out';
  };
  const counts = Array.from({ length: MOST_REPEATS }, (_, i) => i + 1);
  const few = counts.find(decides);
  const needed = few ?? (decides(ENDLESS) ? 'many' : undefined);
  const once = readAgain(reckoning, group, group.instrument, 1);
  return {
    name: group.instrument.body.name,
    type: group.instrument.body.type,
    characteristic: group.characteristic,
    places: placesOf(group),
    needed,
    chance: once ? chanceOfDeciding(undecided, once) : { in: 0, out: 0, decided: 0 },
  };
}

const sooner = (a: Repeating, b: Repeating): number =>
  rounds(a) - rounds(b) || b.chance.decided - a.chance.decided;

/** Finite throughout, so that two that never decide are alike. */
const rounds = ({ needed }: Repeating): number =>
  needed === undefined ? 1e9 : needed === 'many' ? 1e6 : needed;

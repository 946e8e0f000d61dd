import { linear, standardUncertainty, type Uncertain, uncertain } from '@fettle/core';
import { INSTRUMENT_TYPES } from '../chest/instrument-types.ts';
import { minutesOf } from '../reading-plan/minutes.ts';
import { type Place, placeAlong, placeReferred } from '../sheet/places.ts';
import type { Relation } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { borrowedOf, type Deciding, LEAST } from './deciding-tool.ts';
import { takesTheSame } from './finer-input.ts';
import { instrumentTerms } from './instrument.ts';
import type { Judgement, Member } from './judgement.ts';
import { limitsOf } from './limits.ts';
import { worstMember } from './next-move.ts';
import type { Instrument } from './next-move-again.ts';
import { leafBracketOf } from './next-move-by-leaf.ts';
import { chanceWithin } from './next-move-chance.ts';
import type { Reckoning } from './reckoning.ts';

/**
 * What gives a number where leaves alone have left a bracket: an instrument for the gap itself, or, where the gap is
 * worked out from sizes, those sizes read. Each with its chance over what the leaves have left.
 */
export function decidingAfterLeaves(reckoning: Reckoning, judgement: Judgement): Deciding[] {
  const { governing } = judgement;
  const limits = governing && judgement.verdicts[governing]?.limits;
  const member = worstMember(judgement);
  const operand = member?.known.operand;
  if (!governing || !limits || !member || operand?.kind !== 'interval') return [];
  const decided = (one: Omit<Deciding, 'chance'>, next: Uncertain): Deciding[] => {
    const chance = chanceWithin(operand, governing, limits, next);
    return chance && chance.decided >= LEAST ? [{ ...one, chance }] : [];
  };
  return [
    ...directly(reckoning, member).flatMap(([one, next]) => decided(one, next)),
    ...bySizes(reckoning, judgement.characteristic, member).flatMap(([one, next]) => decided(one, next)),
  ];
}

type Way = readonly [Omit<Deciding, 'chance'>, Uncertain];

/** The gap itself, with an instrument that gives a number. */
function directly(reckoning: Reckoning, member: Member): Way[] {
  const tried = leafBracketOf(reckoning, member);
  const { lower, upper } = member.known.operand.kind === 'interval' ? member.known.operand : {};
  if (!tried || !lower || !upper || tried.characteristic.kind === 'seen') return [];
  const { characteristic, back } = tried;
  const middle = (lower.value + upper.value) / 2;
  const width = back(upper.value) - back(lower.value);
  const slope = width === 0 ? 1 : (upper.value - lower.value) / width;
  const usual = characteristic.with;
  const takes = (type: string): boolean =>
    INSTRUMENT_TYPES.get(type)?.reads === characteristic.kind &&
    !/lea(f|ves)/.test(type) &&
    [usual ?? 'feeler leaves', 'feeler leaves'].some((one) => takesTheSame(one, type));
  return instrumentsOf(reckoning, takes, characteristic, back(middle)).flatMap(
    ([instrument, owned]): Way[] => {
      const terms = instrumentTerms(reckoning.book.instruments, instrument, 'length', back(middle), 'next');
      if (!terms) return [];
      const next = linear([{ factor: slope, of: uncertain(back(middle), ...terms) }]);
      const { setUp, each } = minutesOf(instrument.body.type);
      const { name, type } = instrument.body;
      return [
        [
          {
            ...(owned && { instrument: instrument.body.instrument }),
            name,
            type,
            owned,
            expanded: 2 * standardUncertainty(uncertain(0, ...terms)),
            characteristic,
            places: [member.place],
            first: true,
            minutes: setUp + each,
          },
          next,
        ],
      ];
    },
  );
}

/** Owned ones that take it, and those to borrow of types that are not owned. */
function instrumentsOf(
  reckoning: Reckoning,
  takes: (type: string) => boolean,
  characteristic: Characteristic,
  value: number,
): (readonly [Instrument, boolean])[] {
  const owned = [...reckoning.book.instruments.values()].filter(({ body }) => takes(body.type));
  const types = new Set(owned.map(({ body }) => body.type));
  const borrowed = [...INSTRUMENT_TYPES.keys()]
    .filter((type) => takes(type) && !types.has(type))
    .flatMap((type) => borrowedOf(reckoning, type, characteristic, value) ?? []);
  return [...owned.map((one) => [one, true] as const), ...borrowed.map((one) => [one, false] as const)];
}

interface Size {
  readonly factor: number;
  readonly characteristic: Characteristic;
  readonly place: Place;
}

/** The sizes of a sum with signs, each at its place; undefined for any other relation. */
function sizesIn(reckoning: Reckoning, relation: Relation, place: Place, factor = 1): Size[] | undefined {
  const named = (id: string, at: Place): Size[] => {
    const characteristic = reckoning.characteristic(id);
    return [{ factor, characteristic, place: placeAlong(at, characteristic.places) }];
  };
  if (typeof relation === 'string') return named(relation, place);
  if ('characteristic' in relation) return named(relation.characteristic, placeReferred(relation, place));
  if (!('linear' in relation)) return undefined;
  const all = relation.linear.terms.map((one) => sizesIn(reckoning, one.of, place, factor * one.factor));
  return all.some((one) => one === undefined) ? undefined : all.flatMap((one) => one ?? []);
}

/** The sizes the gap follows from: those not read yet, with the tools they are usually read with. */
function bySizes(reckoning: Reckoning, judged: Characteristic, member: Member): Way[] {
  const sizes = judged.relation === undefined ? undefined : sizesIn(reckoning, judged.relation, member.place);
  if (!sizes) return [];
  const parts: { factor: number; of: Uncertain }[] = [];
  const toRead: { size: Size; instrument: Instrument; owned: boolean }[] = [];
  for (const size of sizes) {
    const { characteristic, place, factor } = size;
    const known = reckoning.at(characteristic.id, place).operand;
    if (known.kind === 'value') {
      parts.push({ factor, of: known.q });
      continue;
    }
    const { with: type, kind } = characteristic;
    // What leaves were tried in is no size that would tell more, nor is one of which nothing is known how it is read.
    if (known.kind === 'interval' || type === undefined || kind === 'seen') return [];
    const { lower, upper } =
      limitsOf(characteristic, 'new', undefined) ?? limitsOf(characteristic, 'wear', undefined) ?? {};
    const about = upper ?? lower;
    if (about === undefined) return [];
    const [found] = instrumentsOf(reckoning, (one) => one === type, characteristic, about);
    const terms =
      found && instrumentTerms(reckoning.book.instruments, found[0], kind, about, `next ${toRead.length}`);
    if (!found || !terms) return [];
    toRead.push({ size, instrument: found[0], owned: found[1] });
    parts.push({ factor, of: uncertain(about, ...terms) });
  }
  const [first] = toRead;
  if (!first) return [];
  const next = linear(parts);
  const names = [...new Set(toRead.map(({ instrument }) => instrument.body.name))];
  const types = [...new Set(toRead.map(({ instrument }) => instrument.body.type))];
  const minutes =
    types.reduce((sum, type) => sum + minutesOf(type).setUp, 0) +
    toRead.reduce((sum, { instrument }) => sum + minutesOf(instrument.body.type).each, 0);
  return [
    [
      {
        name: names.join(' and '),
        type: types.join(' and '),
        owned: toRead.every(({ owned }) => owned),
        expanded: 2 * standardUncertainty(next),
        characteristic: judged,
        places: [member.place],
        first: true,
        sizes: toRead.map(({ size, instrument, owned }) => ({
          characteristic: size.characteristic,
          place: size.place,
          name: instrument.body.name,
          type: instrument.body.type,
          owned,
        })),
        minutes,
      },
      next,
    ],
  ];
}

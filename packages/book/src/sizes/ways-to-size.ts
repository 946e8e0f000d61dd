import { standardUncertainty } from '@fettle/core';
import type { Assessed, Assessment } from '../assess/assessment.ts';
import { limitsOf } from '../assess/limits.ts';
import type { Book } from '../fold/book.ts';
import { daysOf } from '../plan/lead-time.ts';
import { type OfferBody, offersOf } from '../plan/offers.ts';
import { isAt, type Place } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { Feature, MadeSize, SizeFamily } from './size-family.ts';

export interface SizeOffer {
  readonly offer: OfferBody;
  readonly entry: string;
  /** Absent where none was said. */
  readonly days?: number;
  /** Of its price, by ISO 4217. */
  readonly currency?: string;
}

/** Offers that bring the whole family to a size. */
export const sizeOffers = (book: Book, { characteristic }: SizeFamily, size: MadeSize): SizeOffer[] =>
  offersOf(book).offers.flatMap(({ body, entry }) =>
    body.restores.some((one) => one.characteristic === characteristic.id && one.size === size.name)
      ? [{ offer: body, entry, ...timed(body), ...inCurrency(book) }]
      : [],
  );

const inCurrency = ({ opened }: Book): { currency?: string } => {
  const currency = opened?.body.currency;
  return currency === undefined ? {} : { currency };
};

const timed = ({ lead_time }: OfferBody): { days?: number } => {
  const days = lead_time === undefined ? undefined : daysOf(lead_time);
  return days === undefined ? {} : { days };
};

/** No mating part can be inside everywhere: the feature differs by more than the limits of the clearance leave. */
interface TooUneven {
  readonly feature: Feature;
  readonly clearance: Characteristic;
  /** By how much it differs, and how much the limits leave, in SI. */
  readonly range: number;
  readonly room: number;
}

/** Mending single ones and leaving the others as they are: a sleeve in one bore. */
export interface SingleWay extends SizeOffer {
  /** Which it mends. */
  readonly mends: readonly Feature[];
  /** Verdicts that stay out or undecided with it. */
  readonly leaves: readonly Assessed[];
  /** Of those it does not mend: no mating part runs in limits everywhere in them. */
  readonly uneven: readonly TooUneven[];
  /** Mending every one of the family singly at this price. */
  readonly allPrice: number;
}

export function singleWays(
  book: Book,
  assessed: Assessment,
  family: SizeFamily,
  forces: readonly Assessed[],
): SingleWay[] {
  const { characteristic, features } = family;
  return offersOf(book).offers.flatMap(({ body, entry }): SingleWay[] => {
    const own = body.restores.filter(
      (one) =>
        one.characteristic === characteristic.id &&
        one.size === undefined &&
        Object.keys(one.at ?? {}).length > 0,
    );
    if (own.length === 0) return [];
    const mends = features.filter(({ place }) => own.some(({ at }) => isAt(at ?? {}, place)));
    if (mends.length === 0 || mends.length === features.length) return [];
    if (!forces.some((one) => isMended(body, one, mends))) return [];
    const left = features.filter((feature) => !mends.includes(feature));
    return [
      {
        offer: body,
        entry,
        ...timed(body),
        ...inCurrency(book),
        mends,
        leaves: forces.filter((one) => !isMended(body, one, mends)),
        uneven: left.flatMap((feature) => tooUneven(book, assessed, family, feature)),
        allPrice: body.price * (features.length / mends.length),
      },
    ];
  });
}

/** By name and place, or by lying wholly on one that is mended. */
const isMended = ({ restores }: OfferBody, one: Assessed, mends: readonly Feature[]): boolean =>
  restores.some(
    ({ characteristic, at }) => characteristic === one.characteristic.id && isAt(at ?? {}, one.place),
  ) || mends.some(({ place }) => isOn(place, one));

/** The same bore or journal: every axis of it that the verdict has says the same. */
const isOn = (feature: Place, { place, worstAt }: Assessed): boolean => {
  const at = { ...worstAt, ...place };
  const shared = Object.keys(feature).filter((axis) => Object.hasOwn(at, axis));
  return shared.length > 0 && shared.every((axis) => feature[axis] === at[axis]);
};

/** Twice its standard uncertainty must be over the room before a range counts as more than it. */
const SURE = 2;

function tooUneven(
  book: Book,
  { reckoning }: Assessment,
  { characteristic }: SizeFamily,
  feature: Feature,
): TooUneven[] {
  const values = feature.places.flatMap((place) => {
    const { operand } = reckoning.at(characteristic.id, place);
    return operand.kind === 'value' ? [operand.q] : [];
  });
  if (values.length < 2) return [];
  const sorted = [...values].sort((a, b) => a.value - b.value);
  const [least, most] = [sorted[0]!, sorted.at(-1)!];
  const range = most.value - least.value;
  // Errors common to all readings cancel in it; taken as if they did not, it is the harder to prove.
  const doubt = SURE * Math.hypot(standardUncertainty(least), standardUncertainty(most));
  return [...book.characteristics.values()].flatMap((clearance): TooUneven[] => {
    const factor = factorIn(clearance, characteristic.id);
    const limits = limitsOf(clearance, 'wear', undefined) ?? limitsOf(clearance, 'new', undefined);
    if (factor === undefined || limits?.lower === undefined || limits.upper === undefined) return [];
    // Only where the mating part has one size along what the feature is measured along.
    const over = characteristic.reduce?.over ?? [];
    if (!over.every((axis) => clearance.places.includes(axis))) return [];
    const room = (limits.upper - limits.lower) / Math.abs(factor);
    return range - doubt > room ? [{ feature, clearance, range, room }] : [];
  });
}

function factorIn({ relation }: Characteristic, id: string): number | undefined {
  if (relation === undefined || typeof relation === 'string' || !('linear' in relation)) return undefined;
  if (relation.linear.terms.length < 2) return undefined;
  return relation.linear.terms.find(({ of }) => of === id)?.factor;
}

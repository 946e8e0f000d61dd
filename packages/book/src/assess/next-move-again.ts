import { parseQuantity, standardUncertainty, term, type Uncertain, uncertain } from '@fettle/core';
import type { ReadingOnRecord, Written } from '../fold/book.ts';
import { type Place, placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { readingsAt } from './finer-input.ts';
import { instrumentTerms } from './instrument.ts';
import type { Judgement } from './judgement.ts';
import { worstMember } from './next-move.ts';
import type { Reckoning } from './reckoning.ts';

export type Instrument = Written<'instrument-declared'>;

/** Readings taken with one instrument of one thing, and the number that rests on them. */
export interface ReadWith {
  readonly instrument: Instrument;
  readonly characteristic: Characteristic;
  readonly kind: Exclude<Characteristic['kind'], 'seen'>;
  readonly readings: readonly ReadingOnRecord[];
  /** As read, on average [SI]. */
  readonly value: number;
  /** The one of the numbers that rests on them. */
  readonly number: Uncertain;
}

/** Where its readings were taken, each once. */
export const placesOf = ({ readings }: ReadWith): Place[] => [
  ...new Map(readings.map(({ body }) => [placeText(body.place ?? {}), body.place ?? {}])).values(),
];

/** Share of the variance under which reading again changes nothing that could be seen. */
const WORTH_A_LOOK = 0.1;

/** The readings behind what is judged, by the instrument and the thing they were taken of. */
export function readWith(
  reckoning: Reckoning,
  judgement: Judgement,
  whole: Uncertain,
  numbers: readonly Uncertain[],
): ReadWith[] {
  const decides = judgement.worstAt === undefined ? judgement.members : [worstMember(judgement)!];
  const behind = readingsAt(
    reckoning,
    decides.flatMap(({ known }) => known.entries),
  ).filter(({ body }) => body.value !== undefined);
  const groups = new Map<string, ReadingOnRecord[]>();
  for (const number of numbers)
    for (const reading of behind) {
      const rests = number.terms.some(({ source }) => source === `reading:${reading.entry.id}`);
      const key = `${numbers.indexOf(number)}\n${reading.body.instrument}\n${reading.body.characteristic}`;
      if (rests) groups.set(key, [...(groups.get(key) ?? []), reading]);
    }
  const total = standardUncertainty(whole) ** 2;
  return [...groups].flatMap(([key, readings]): ReadWith[] => {
    const number = numbers[Number(key.split('\n')[0])]!;
    const [{ body }] = readings as [ReadingOnRecord];
    const instrument = reckoning.book.instruments.get(body.instrument);
    const characteristic = reckoning.characteristic(body.characteristic);
    if (!instrument || characteristic.kind === 'seen') return [];
    const { kind } = characteristic;
    const said = readings.flatMap((one) => {
      const read = parseQuantity(one.body.value!, kind);
      return read.ok ? [read.value.value] : [];
    });
    const ids = new Set(readings.map(({ entry }) => `reading:${entry.id}`));
    const own = number.terms
      .filter(({ source }) => ids.has(source) || source === `instrument:${body.instrument}`)
      .reduce((sum, { u }) => sum + u * u, 0);
    if (said.length === 0 || own < WORTH_A_LOOK * total) return [];
    const value = said.reduce((sum, one) => sum + one, 0) / said.length;
    return [{ instrument, characteristic, kind, readings, value, number }];
  });
}

/**
 * The number as it would come out were its readings taken again with another instrument, each so many times: what they
 * put in of doubt is taken out, and what the other would put in stands in its place, reading by reading with the same
 * sensitivities. All else in it is the same error as before.
 */
export function readAgain(
  reckoning: Reckoning,
  { instrument, kind, readings, value, number }: ReadWith,
  other: Instrument,
  times: number,
): Uncertain | undefined {
  const { instruments } = reckoning.book;
  const was = instrumentTerms(instruments, instrument, kind, value, 'was');
  const will = instrumentTerms(instruments, other, kind, value, 'will');
  if (!was || !will) return undefined;
  const uOf = (terms: typeof was, source: string): number =>
    terms.find((one) => one.source === source)?.u ?? 0;
  const ownBefore = uOf(was, 'reading:was');
  if (ownBefore === 0) return undefined;
  const sources = new Map(readings.map(({ entry }) => [`reading:${entry.id}`, entry.id]));
  const commons = was.map(({ source }) => source).filter((source) => source !== 'reading:was');
  const mine = number.terms.filter(({ source }) => sources.has(source));
  const sensitivities = mine.map(({ u }) => u / ownBefore);
  // What all share goes in with the sum of the sensitivities: in a difference they cancel.
  const lead = number.terms.find(({ source }) => source === `instrument:${instrument.body.instrument}`);
  const leadBefore = uOf(was, `instrument:${instrument.body.instrument}`);
  const all = leadBefore > 0 ? (lead?.u ?? 0) / leadBefore : sensitivities.reduce((sum, one) => sum + one, 0);
  const kept = number.terms.flatMap((one) => {
    if (sources.has(one.source)) return [];
    if (!commons.includes(one.source)) return [one];
    // Others may have been read with it too; only what these readings put in goes.
    const rest = one.u - all * uOf(was, one.source);
    return Math.abs(rest) > 1e-9 * Math.abs(one.u) ? [{ ...one, u: rest }] : [];
  });
  const common = will
    .filter(({ source }) => source !== 'reading:will')
    .map((one) => ({ ...one, u: all * one.u }));
  const own = mine.map(({ source }, i) =>
    term(`again:${source}`, (sensitivities[i]! * uOf(will, 'reading:will')) / Math.sqrt(times)),
  );
  return uncertain(number.value, ...kept, ...common, ...own.filter(({ u }) => u !== 0));
}

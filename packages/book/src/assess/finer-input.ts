import { conformity, parseQuantity, type Uncertain } from '@fettle/core';
import type { ReadingOnRecord } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { standardUncertaintyOf } from './instrument.ts';
import type { Member } from './judgement.ts';
import type { Limits } from './limits.ts';
import type { Reckoning } from './reckoning.ts';
import { RISK } from './verdict.ts';

/** The instrument from which most of the doubt in a derived figure comes, and what was read with it. */
export interface LargestDoubt {
  readonly instrument: string;
  readonly name: string;
  /** Of the variance. */
  readonly share: number;
  readonly of: readonly Characteristic[];
}

/** The readings behind a figure. */
export function readingsAt(reckoning: Reckoning, entries: readonly string[]): ReadingOnRecord[] {
  return reckoning.readingsOf(entries);
}

/** Types of instrument that can take each other's measure. Common practice, no source; any other only its own type's. */
const INTERCHANGEABLE: readonly (readonly string[])[] = [
  ['telescoping gauge', 'dial bore gauge', 'inside micrometer', 'calliper'],
  ['micrometer', 'calliper'],
  ['depth micrometer', 'calliper'],
  // A face run over on a plate, instead of leaves under an edge.
  ['straightedge and leaf', 'dial indicator'],
  // A part that can be moved through its gap shows it as travel.
  ['feeler leaves', 'dial indicator'],
];

export const takesTheSame = (type: string, other: string): boolean =>
  type === other || INTERCHANGEABLE.some((types) => types.includes(type) && types.includes(other));

/**
 * What a figure worked out from several readings owes most of its doubt to: an instrument's common error and the own
 * errors of its readings together. A figure read directly needs no such hint: its one instrument is plain to see.
 */
export function largestDoubt(
  reckoning: Reckoning,
  member: Member,
  { terms }: Uncertain,
): LargestDoubt | undefined {
  if (!member.known.witnesses.some(({ by }) => by === 'relation')) return undefined;
  const readings = readingsAt(reckoning, member.known.entries);
  const variances = new Map<string, number>();
  let total = 0;
  for (const { source, u } of terms) {
    total += u * u;
    const instrument = source.startsWith('instrument:')
      ? source.slice('instrument:'.length)
      : readings.find(({ entry }) => source === `reading:${entry.id}`)?.body.instrument;
    if (instrument !== undefined) variances.set(instrument, (variances.get(instrument) ?? 0) + u * u);
  }
  const [largest] = [...variances].sort((a, b) => b[1] - a[1]);
  if (!largest || largest[1] < total / 2) return undefined;
  const [id, variance] = largest;
  const read = readings.filter(({ body }) => body.instrument === id).map(({ body }) => body.characteristic);
  return {
    instrument: id,
    name: reckoning.book.instruments.get(id)?.body.name ?? id,
    share: variance / total,
    of: [...new Set(read)].map((one) => reckoning.characteristic(one)),
  };
}

/**
 * An instrument owned that would decide a figure worked out from several readings, were it used for those that the
 * largest doubt comes from. Their share of the variance goes with the square of the instrument's uncertainty.
 */
export function finerInput(
  reckoning: Reckoning,
  member: Member,
  { instrument, share, of }: LargestDoubt,
  { value, u, limits }: { value: number; u: number; limits: Limits },
): { characteristic: Characteristic; instrument: string; name: string } | undefined {
  const [characteristic] = of;
  const used = reckoning.book.instruments.get(instrument);
  const reading = readingsAt(reckoning, member.known.entries).find(
    ({ body }) => body.instrument === instrument,
  );
  if (!characteristic || of.length > 1 || characteristic.kind === 'seen' || !used) return undefined;
  const { kind } = characteristic;
  const said = reading?.body.value === undefined ? undefined : parseQuantity(reading.body.value, kind);
  if (!said?.ok) return undefined;
  const before = standardUncertaintyOf(used, kind, said.value.value);
  const fit = [...reckoning.book.instruments.values()]
    .filter(({ body }) => takesTheSame(used.body.type, body.type))
    .flatMap((one) => {
      const own = standardUncertaintyOf(one, kind, said.value.value);
      return own !== undefined && before !== undefined && own < before
        ? [{ one, own, ratio: own / before }]
        : [];
    })
    .filter(
      ({ ratio }) =>
        conformity({ value, u: u * Math.sqrt(1 - share + share * ratio ** 2) }, limits, RISK).verdict !==
        'cannot-tell',
    )
    .sort((a, b) => b.own - a.own)[0];
  return (
    fit && {
      characteristic,
      instrument: fit.one.body.instrument,
      name: fit.one.body.name,
    }
  );
}

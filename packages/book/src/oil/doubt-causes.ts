import type { Uncertain } from '@fettle/core';
import type { Book, ReadingOnRecord } from '../fold/book.ts';

/** One cause of the doubt in a predicted pressure; the shares of all causes are 1 together. */
export interface DoubtCause {
  /**
   * An instrument's error common to all it read; the own errors of readings; what only leaves bounded; what an offer
   * leaves open; anything else by its source.
   */
  readonly cause: 'instrument' | 'readings' | 'bracket' | 'offer' | 'other';
  /** The instrument's name, the characteristic's, the offer's, or the source. */
  readonly of: string;
  /** Of the variance. */
  readonly share: number;
}

/** The variance by its causes, the greatest first. */
export function doubtCauses(book: Book, { terms }: Uncertain): DoubtCause[] {
  const byEntry = new Map(book.readings.map((one) => [`reading:${one.entry.id}`, one]));
  const total = terms.reduce((sum, { u }) => sum + u * u, 0);
  const causes = new Map<string, DoubtCause>();
  for (const { source, u } of terms) {
    const about = causeOf(book, byEntry, source);
    const key = `${about.cause}\n${about.of}`;
    const share = (causes.get(key)?.share ?? 0) + (u * u) / total;
    causes.set(key, { ...about, share });
  }
  return [...causes.values()].sort((a, b) => b.share - a.share);
}

function causeOf(
  book: Book,
  readings: ReadonlyMap<string, ReadingOnRecord>,
  source: string,
): Pick<DoubtCause, 'cause' | 'of'> {
  const named = (id: string): string => book.characteristics.get(id)?.name ?? id;
  const reading = readings.get(source);
  if (reading) return { cause: 'readings', of: named(reading.body.characteristic) };
  const [prefix = '', rest = '', about = ''] = source.split(':');
  if (prefix === 'instrument')
    return { cause: 'instrument', of: book.instruments.get(rest)?.body.name ?? rest };
  if (prefix === 'bracket' || prefix === 'bracket-edges')
    return { cause: 'bracket', of: named(rest.slice(0, rest.indexOf('@'))) };
  if (prefix === 'offer')
    return { cause: 'offer', of: `${book.offers.get(rest)?.body.name ?? rest}, ${named(about)}` };
  return { cause: 'other', of: source };
}

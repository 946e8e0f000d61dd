import type { Book } from '@fettle/book';
import { whenWords } from '../words/entry.ts';
import { printedQuantity } from '../words/printed-quantity.ts';

/** The instruments with their uncertainty, who stands by it, and how they were checked. */
export const instrumentPages = (book: Book) =>
  [...book.instruments.values()].map(({ entry, body }) => ({
    name: body.name,
    type: body.type,
    u: `${printedQuantity(body.uncertainty.expanded)}, k = ${body.uncertainty.coverage}`,
    common: `${Math.round(body.uncertainty.common_share * 100)} %`,
    trust: body.trust === 'stated' ? 'its owner' : "the program's default",
    declared: `${entry.who}, ${whenWords(entry.at)}`,
    used: String(
      book.readings.filter((one) => one.body.instrument === body.instrument && one.standing === 'counts')
        .length,
    ),
    leaves: (body.leaves ?? []).map(printedQuantity).join(', '),
    note: body.note ?? '',
    checks: book.instrumentChecks
      .filter((check) => check.body.instrument === body.instrument)
      .map((check) => ({
        words: `${check.body.good ? 'good' : 'not good'}: against ${check.body.against} it read ${check.body.read}${check.body.note ? `; ${check.body.note}` : ''}`,
        who: `${check.entry.who}, ${whenWords(check.entry.at)}`,
        good: check.body.good,
      })),
  }));

/** What real gauges showed. */
export const gaugePages = (book: Book) =>
  book.gaugeReadings.map(({ entry, body }) => ({
    pressure: printedQuantity(body.pressure),
    speed: printedQuantity(body.speed),
    temperature: body.temperature === undefined ? 'not said' : printedQuantity(body.temperature),
    oil: body.oil ?? '',
    when_taken: body.when.replace('-', ' '),
    instrument: book.instruments.get(body.instrument)?.body.name ?? body.instrument,
    u: printedQuantity(book.instruments.get(body.instrument)?.body.uncertainty.expanded ?? ''),
    who: entry.who,
    when: whenWords(entry.at),
    note: body.note ?? '',
  }));

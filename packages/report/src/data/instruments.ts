import { type Book, budgetOf, chestWords, studyWorked } from '@fettle/book';
import { whenWords } from '../words/entry.ts';
import { printedQuantity } from '../words/printed-quantity.ts';

const STOOD_BY = { stated: 'its owner', default: 'its type', built: 'its budget' } as const;

/** The instruments with their uncertainty, who stands by it, what it is built from, and how they were checked. */
export const instrumentPages = (book: Book) =>
  [...book.instruments.values()].map(({ entry, body }) => {
    const worked = budgetOf(body);
    return {
      name: body.name,
      type: body.type,
      u: `${printedQuantity(body.uncertainty.expanded)}, k = ${body.uncertainty.coverage}`,
      common: `${Math.round(body.uncertainty.common_share * 100)} %`,
      trust: STOOD_BY[body.trust],
      declared: `${entry.who}, ${whenWords(entry.at)}`,
      used: String(
        book.readings.filter((one) => one.body.instrument === body.instrument && one.standing === 'counts')
          .length,
      ),
      leaves: (body.leaves ?? []).map(printedQuantity).join(', '),
      set_in: body.set_in === undefined ? '' : (book.instruments.get(body.set_in)?.body.name ?? body.set_in),
      note: body.note ?? '',
      budget: worked
        ? chestWords.budgetRows(book, worked).map((row) => ({
            ...row,
            amount: row.amount.replace(/ um$/, ' μm'),
            percent: `${Math.round(100 * row.share)} %`,
          }))
        : [],
      sum: worked ? chestWords.budgetSum(body, worked) : '',
      checks: book.instrumentChecks
        .filter((check) => check.body.instrument === body.instrument)
        .map((check) => ({
          verdict: `${check.body.good ? 'good' : 'failed'}, ${whenWords(check.entry.at).slice(0, 10)}`,
          words: `${chestWords.checkWords(book, check)}${check.body.note ? `; ${check.body.note}` : ''}`,
          who: `${check.entry.who}, ${whenWords(check.entry.at)}`,
          good: check.body.good,
        })),
      studies: book.studies
        .filter((study) => study.body.instrument === body.instrument)
        .map((study) => {
          const result = studyWorked(book.instruments, body.instrument, study.body.readings);
          return {
            what: `${study.body.what}${body.study === study.entry.id ? ', adopted' : ''}`,
            // What was adopted is in the budget by now: beside itself there is nothing to compare it with.
            words: result.ok
              ? chestWords
                  .studySentences(body.name, result.value)
                  .slice(0, body.study === study.entry.id ? 2 : undefined)
                  .join(' ')
              : '',
            who: `${study.entry.who}, ${whenWords(study.entry.at)}`,
          };
        }),
    };
  });

/** What real gauges showed. */
export const gaugePages = (book: Book) =>
  book.gaugeReadings.map(({ entry, body, standing }) => ({
    pressure: printedQuantity(body.pressure),
    speed: printedQuantity(body.speed),
    temperature: body.temperature === undefined ? 'not said' : printedQuantity(body.temperature),
    oil: body.oil ?? '',
    when_taken: body.when.replace('-', ' '),
    instrument: book.instruments.get(body.instrument)?.body.name ?? body.instrument,
    u: printedQuantity(book.instruments.get(body.instrument)?.body.uncertainty.expanded ?? ''),
    who: entry.who,
    when: whenWords(entry.at),
    note: [standing === 'counts' ? '' : 'in doubt: its gauge failed a check', body.note ?? '']
      .filter((one) => one !== '')
      .join('; '),
  }));

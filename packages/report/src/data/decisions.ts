import { type Assessed, type Book, basketWords, orderStandings } from '@fettle/book';
import { whenWords } from '../words/entry.ts';
import { conditionWords } from './record.ts';

const partName = (book: Book, id: string | undefined): string =>
  id === undefined ? '' : (book.parts.get(id)?.name ?? id);

/** What was decided about each part. */
export const decisionPages = (book: Book) =>
  [...book.dispositions.values()].map(({ entry, body }) => ({
    part: partName(book, body.part),
    decision: `${body.decision}${body.size === undefined ? '' : `, ${body.size}`}`,
    why: body.why,
    who: entry.who,
    when: whenWords(entry.at),
  }));

/** What was ordered, and whether what has come was measured. */
export const orderPages = (book: Book, judgements: readonly Assessed[]) =>
  orderStandings(book, judgements).map((standing) => {
    const { entry, body, receipts } = standing.order;
    const came = receipts
      .map((id) => book.entries.find((one) => one.id === id))
      .map((receipt) => (receipt ? `${whenWords(receipt.at)}, ${receipt.who}` : 'entry not here'))
      .join('; ');
    return {
      item: body.count === undefined ? body.item : `${body.count} × ${body.item}`,
      part: partName(book, body.part),
      supplier: [body.supplier, body.number].filter((x) => x !== undefined).join(', '),
      price: body.price === undefined ? '' : body.price.toFixed(2),
      lead: body.lead_days === undefined ? '' : `${body.lead_days} ${body.lead_days === 1 ? 'day' : 'days'}`,
      note: [
        body.note,
        standing.substituteFor === undefined ? undefined : `a substitute for ${standing.substituteFor}`,
      ]
        .filter((x) => x !== undefined)
        .join('; '),
      when: whenWords(entry.at),
      who: entry.who,
      received: came === '' ? '' : `${came}; ${basketWords.standingWords(standing)}`,
    };
  });

/** Every part with its states and where it is fitted. */
export function partPages(book: Book) {
  const where = new Map<string, string[]>();
  for (const { id, now } of book.positions.values())
    if (now)
      where.set(now.part, [
        ...(where.get(now.part) ?? []),
        `${id}${now.way === undefined ? '' : ` (${now.way})`}`,
      ]);
  return [...book.parts.values()].map((part) => ({
    name: part.name,
    id: part.id,
    states: part.states.map(
      (state) => `${conditionWords(state)}${state.id === part.current.id ? '' : ', no longer'}`,
    ),
    fitted: where.get(part.id)?.join(', ') ?? 'not fitted',
  }));
}

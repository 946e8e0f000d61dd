import type { Book } from '@fettle/book';
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

/** What was ordered, and what has come. */
export const orderPages = (book: Book) =>
  book.orders.map(({ entry, body, receipts }) => ({
    item: body.item,
    part: partName(book, body.part),
    supplier: [body.supplier, body.number].filter((x) => x !== undefined).join(', '),
    price: body.price === undefined ? '' : body.price.toFixed(2),
    lead: body.lead_days === undefined ? '' : `${body.lead_days} days`,
    note: body.note ?? '',
    when: whenWords(entry.at),
    who: entry.who,
    received: receipts
      .map((id) => book.entries.find((one) => one.id === id))
      .map((receipt) => (receipt ? `${whenWords(receipt.at)}, ${receipt.who}` : 'entry not here'))
      .join('; '),
  }));

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

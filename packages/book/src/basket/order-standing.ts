import type { Assessed } from '../assess/assessment.ts';
import type { Book, Part } from '../fold/book.ts';
import { bodyOf, type Entry } from '../ledger/entry.ts';

/** Something ordered, and how far it has come: what arrives is not measured until somebody measures it. */
export interface OrderStanding {
  readonly order: Book['orders'][number];
  readonly state: 'waited' | 'arrived' | 'not-measured' | 'measured';
  /** As what it was entered. */
  readonly part?: Part;
  /** Readings of it that count. */
  readonly readings: number;
  /** Verdicts that rest on it; none while it is fitted nowhere. */
  readonly out: readonly Assessed[];
  readonly substituteFor?: string;
  /** Of its price, by ISO 4217. */
  readonly currency?: string;
}

export function orderStandings(book: Book, judgements: readonly Assessed[]): OrderStanding[] {
  const byId = new Map<string, Entry>(book.entries.map((entry) => [entry.id, entry]));
  return book.orders.map((order) => {
    const receipts = order.receipts.flatMap((id) => {
      const entry = byId.get(id);
      return entry ? [bodyOf(entry as Entry & { kind: 'receipt' })] : [];
    });
    const named = receipts.find(({ part }) => part !== undefined)?.part ?? order.body.part;
    const part = named === undefined ? undefined : book.parts.get(named);
    const readings = part
      ? book.readings.filter(
          ({ body, standing }) => standing === 'counts' && part.states.some(({ id }) => id === body.state),
        ).length
      : 0;
    const substitute = book.supplies.get(order.body.supply ?? '')?.body.substitute_for;
    const currency = book.opened?.body.currency;
    return {
      ...(currency !== undefined && { currency }),
      order,
      state:
        order.receipts.length === 0
          ? 'waited'
          : !part
            ? 'arrived'
            : readings === 0
              ? 'not-measured'
              : 'measured',
      readings,
      out: part
        ? judgements.filter(
            ({ states, status }) => status === 'out' && states.some(({ id }) => id === part.current.id),
          )
        : [],
      ...(part && { part }),
      ...(substitute !== undefined && { substituteFor: substitute }),
    };
  });
}

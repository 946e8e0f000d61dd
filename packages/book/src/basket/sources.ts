import type { Book } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { daysOf } from '../plan/lead-time.ts';
import type { Buyable } from './buying-programme.ts';
import { broughtBy, isHad, type Need } from './needs.ts';

export interface BasketLine {
  readonly id: string;
  readonly name: string;
  /** A repair on offer, or something to be bought. */
  readonly kind: 'repair' | 'supply';
  readonly supplier?: string;
  readonly number?: string;
  readonly count: number;
  readonly price: number;
  readonly leadTime?: string;
  readonly substituteFor?: string;
  readonly trust: 'quoted' | 'assumed';
  readonly note?: string;
  readonly entry: string;
  /** Needs that it covers here, with how many of each it brings. */
  readonly covers: readonly { readonly need: Need; readonly count: number }[];
}

/** A supply or a repair on offer, as it is reckoned with. */
export interface Source {
  readonly line: Omit<BasketLine, 'count' | 'covers'>;
  readonly buyable: Buyable;
  readonly days: number | undefined;
}

/** Everything on record that could be bought. */
export const sourcesOf = (book: Book): Source[] => [...suppliesOf(book), ...repairsOf(book)];

/** What covers an open need, and whatever that is no use without. */
export function ofUse(all: readonly Source[], open: readonly Need[]): Source[] {
  const wanted = new Set(
    all.filter(({ buyable }) => open.some(({ key }) => buyable.covers.has(key))).map(({ line }) => line.id),
  );
  for (const id of wanted)
    for (const other of all.find(({ line }) => line.id === id)?.buyable.needs ?? []) wanted.add(other);
  return all.filter(({ line }) => wanted.has(line.id));
}

const saidDays = (text: string | undefined): number | undefined =>
  text === undefined ? undefined : daysOf(text);

/** What whoever offers it says of it, supply and repair alike. */
const offeredLine = (body: Body<'supply-offered'> | Body<'repair-offered'>) => ({
  name: body.name,
  price: body.price,
  trust: body.trust,
  ...(body.supplier !== undefined && { supplier: body.supplier }),
  ...(body.number !== undefined && { number: body.number }),
  ...(body.lead_time !== undefined && { leadTime: body.lead_time }),
  ...(body.note !== undefined && { note: body.note }),
});

const suppliesOf = (book: Book): Source[] =>
  [...book.supplies.values()].map(({ entry, body }) => ({
    days: saidDays(body.lead_time),
    line: {
      id: body.supply,
      kind: 'supply',
      entry: entry.id,
      ...offeredLine(body),
      ...(body.substitute_for !== undefined && { substituteFor: body.substitute_for }),
    },
    buyable: {
      id: body.supply,
      price: body.price,
      covers: broughtBy(book, body.supply),
      ...(body.supplier !== undefined && { supplier: body.supplier }),
      ...(body.most !== undefined && { most: body.most }),
    },
  }));

/** A repair on offer is bought once, with what it needs and without what it excludes. */
const repairsOf = (book: Book): Source[] =>
  [...book.offers.values()]
    .filter(({ body }) => !book.supplies.has(body.offer))
    .map(({ entry, body }) => ({
      days: saidDays(body.lead_time),
      line: { id: body.offer, kind: 'repair', entry: entry.id, ...offeredLine(body) },
      buyable: {
        id: body.offer,
        price: body.price,
        covers: broughtBy(book, body.offer),
        most: 1,
        needs: body.needs.filter((id) => !isHad(book, id)),
        excludes: body.excludes.filter((id) => book.offers.has(id)),
        ...(body.supplier !== undefined && { supplier: body.supplier }),
      },
    }));

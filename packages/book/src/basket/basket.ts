import type { Book } from '../fold/book.ts';
import { daysOf } from '../plan/lead-time.ts';
import {
  type Buyable,
  type Buying,
  type BuyingProblem,
  type BuyingWishes,
  cheapestBuying,
  NOTHING,
  shortfall,
} from './buying-programme.ts';
import { broughtBy, isHad, type Need, needsOf } from './needs.ts';

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

export interface Alternative {
  readonly what:
    | { readonly with: BasketLine['id']; readonly name: string }
    | { readonly without: BasketLine['id']; readonly name: string }
    | { readonly onlyFrom: string }
    | { readonly singles: true };
  /** What the cheapest basket of that kind costs; absent where there is none. */
  readonly price?: number;
}

export interface Basket {
  readonly needs: readonly Need[];
  readonly lines: readonly BasketLine[];
  readonly carriage: readonly { readonly supplier: string; readonly charge: number }[];
  readonly goods: number;
  readonly price: number;
  /** Said on orders so far. */
  readonly spent: number;
  readonly cap?: number;
  /** Brought beyond what is needed, such as the rest of a kit. */
  readonly leftOver: readonly { readonly key: string; readonly name: string; readonly count: number }[];
  /** Needed, and nothing on record brings it. */
  readonly unmet: readonly Need[];
  /** Not reckoned with, and why. */
  readonly barred: readonly { readonly name: string; readonly why: 'not-in-time' | 'excluded-by-plan' }[];
  /** Open needs whose kind can be had, but not in the size wanted. */
  readonly otherSizes: readonly { readonly need: Need; readonly supplies: readonly string[] }[];
  readonly alternatives: readonly Alternative[];
  /** Kits may be split in it: nothing at all can cost less. */
  readonly floor: number;
  /** The search for anything cheaper ran to its end and found nothing. */
  readonly proven: boolean;
  /** Why there is no basket although each need has something that brings it. */
  readonly none?: 'excluded' | 'not-found';
}

export interface BasketWishes {
  /** Repairs on offer that are to be done, such as those of the plan. */
  readonly taken: readonly string[];
  /** Days there are; what the job says when absent. */
  readonly days?: number;
}

interface Source {
  readonly line: Omit<BasketLine, 'count' | 'covers'>;
  readonly buyable: Buyable;
  readonly days: number | undefined;
}

/**
 * The cheapest basket of what is on record that covers what was decided, wanted and planned, kits against singles and
 * one carriage against another; proven by a search that ran to its end.
 */
export function basketOf(book: Book, wishes: BasketWishes): Basket {
  const all = needsOf(book, wishes.taken);
  const open = all.filter(({ count }) => count > 0);
  const due = book.opened?.body.due;
  const days = wishes.days ?? (due === undefined ? undefined : daysOf(due));
  const sources = ofUse([...suppliesOf(book), ...repairsOf(book)], open);
  const barred: Basket['barred'][number][] = [];
  const admitted = sources.filter(({ line, buyable, days: own }) => {
    const late = days !== undefined && own !== undefined && own > days;
    const rival = !wishes.taken.includes(line.id) && excludedBy(book, line.id, wishes.taken);
    if (late) barred.push({ name: line.name, why: 'not-in-time' });
    else if (rival) barred.push({ name: line.name, why: 'excluded-by-plan' });
    return !late && !rival && buyable.price >= 0;
  });
  const buyables = admitted.map(({ buyable }) => buyable);
  const carriage = new Map(
    [...book.terms.values()].flatMap(({ body }) =>
      body.carriage === undefined ? [] : [[body.party, body.carriage] as const],
    ),
  );
  const missing = shortfall({ needs: countsOf(open), buyables, carriage });
  const unmet = open.flatMap((need) =>
    missing.has(need.key) ? [{ ...need, count: missing.get(need.key)! }] : [],
  );
  const met = new Map([...countsOf(open)].map(([key, count]) => [key, count - (missing.get(key) ?? 0)]));
  const problem: BuyingProblem = {
    needs: new Map([...met].filter(([, count]) => count > 0)),
    buyables,
    carriage,
  };
  const search = cheapestBuying(problem);
  const best = search.found ?? NOTHING;
  const cheaper = cheapestBuying(problem, { below: best.price });
  const lines = linesOf(admitted, best, open);
  const cap = book.opened?.body.spending_cap;
  return {
    needs: all,
    lines,
    carriage: [...new Set(lines.flatMap(({ supplier }) => supplier ?? []))].flatMap((supplier) => {
      const charge = carriage.get(supplier) ?? 0;
      return charge > 0 ? [{ supplier, charge }] : [];
    }),
    goods: best.goods,
    price: best.price,
    spent: book.orders.reduce((sum, { body }) => sum + (body.price ?? 0), 0),
    ...(cap !== undefined && { cap }),
    leftOver: leftOverOf(book, admitted, best, open),
    unmet,
    barred,
    otherSizes: unmet.flatMap((need) => {
      const supplies = otherSizesOf(book, need);
      return supplies.length > 0 ? [{ need, supplies }] : [];
    }),
    alternatives: alternativesOf(problem, admitted, best),
    floor: cheapestBuying(problem, { inParts: true }).found?.price ?? 0,
    proven: search.finished && cheaper.finished && !cheaper.found,
    ...(!search.found && {
      none: search.finished ? ('excluded' as const) : ('not-found' as const),
    }),
  };
}

/** What covers an open need, and whatever that is no use without. */
function ofUse(all: readonly Source[], open: readonly Need[]): Source[] {
  const wanted = new Set(
    all.filter(({ buyable }) => open.some(({ key }) => buyable.covers.has(key))).map(({ line }) => line.id),
  );
  for (const id of wanted)
    for (const other of all.find(({ line }) => line.id === id)?.buyable.needs ?? []) wanted.add(other);
  return all.filter(({ line }) => wanted.has(line.id));
}

const countsOf = (needs: readonly Need[]): Map<string, number> =>
  new Map(needs.map(({ key, count }) => [key, count]));

const saidDays = (text: string | undefined): number | undefined =>
  text === undefined ? undefined : daysOf(text);

const suppliesOf = (book: Book): Source[] =>
  [...book.supplies.values()].map(({ entry, body }) => ({
    days: saidDays(body.lead_time),
    line: {
      id: body.supply,
      name: body.name,
      kind: 'supply',
      price: body.price,
      trust: body.trust,
      entry: entry.id,
      ...(body.supplier !== undefined && { supplier: body.supplier }),
      ...(body.number !== undefined && { number: body.number }),
      ...(body.lead_time !== undefined && { leadTime: body.lead_time }),
      ...(body.substitute_for !== undefined && { substituteFor: body.substitute_for }),
      ...(body.note !== undefined && { note: body.note }),
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
      line: {
        id: body.offer,
        name: body.name,
        kind: 'repair',
        price: body.price,
        trust: body.trust,
        entry: entry.id,
        ...(body.supplier !== undefined && { supplier: body.supplier }),
        ...(body.number !== undefined && { number: body.number }),
        ...(body.lead_time !== undefined && { leadTime: body.lead_time }),
        ...(body.note !== undefined && { note: body.note }),
      },
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

const excludedBy = (book: Book, id: string, taken: readonly string[]): boolean => {
  const own = book.offers.get(id)?.body.excludes ?? [];
  return taken.some((one) => own.includes(one) || book.offers.get(one)?.body.excludes.includes(id) === true);
};

const linesOf = (sources: readonly Source[], { counts }: Buying, open: readonly Need[]): BasketLine[] =>
  sources.flatMap(({ line, buyable }) => {
    const count = counts.get(line.id) ?? 0;
    if (count === 0) return [];
    const covers = open.flatMap((need) => {
      const each = buyable.covers.get(need.key) ?? 0;
      return each === 0 ? [] : [{ need, count: each * count }];
    });
    return [{ ...line, count, covers }];
  });

function leftOverOf(
  book: Book,
  sources: readonly Source[],
  { counts }: Buying,
  open: readonly Need[],
): Basket['leftOver'] {
  const brought = new Map<string, number>();
  for (const { line, buyable } of sources) {
    // A repair is no stock: what it brings beyond need is no left-over.
    const times = counts.get(line.id) ?? 0;
    if (times === 0 || line.kind === 'repair') continue;
    for (const [key, each] of buyable.covers) brought.set(key, (brought.get(key) ?? 0) + each * times);
  }
  return [...brought].flatMap(([key, count]) => {
    const need = open.find((one) => one.key === key);
    const more = count - (need?.count ?? 0);
    return more > 0 ? [{ key, name: need?.name ?? nameOfNeed(book, key), count: more }] : [];
  });
}

/** What a need is called when nobody has it: the repair or the position it goes by. */
const nameOfNeed = (book: Book, key: string): string =>
  book.offers.get(key)?.body.name ??
  book.wants.get(key)?.body.name ??
  book.sheet?.positions
    .find(({ id }) => id.replace(/[-.]?\{[^{}]*\}/g, '') === key)
    ?.name.replace(/[-.]?\{[^{}]*\}/g, '') ??
  key;

/** Supplies of the same kind of thing in another size, or in none that was said. */
const otherSizesOf = (book: Book, { key, size }: Need): string[] => {
  const kind = size === undefined ? key : key.slice(0, -size.length - 1);
  return [...book.supplies.values()]
    .filter(({ body }) => body.covers.some(({ need, size: own }) => need === kind && own !== size))
    .map(({ body }) => body.name);
};

/** There are as many as supplies, and none of them is what is bought. */
const ALTERNATIVE_BRANCHES = 2000;

function alternativesOf(problem: BuyingProblem, sources: readonly Source[], best: Buying): Alternative[] {
  if (best === NOTHING) return [];
  // A search that was broken off says nothing of what it looked for.
  const asked = (what: Alternative['what'], wishes: BuyingWishes): Alternative[] => {
    const { found, finished } = cheapestBuying(problem, wishes, ALTERNATIVE_BRANCHES);
    return finished ? [{ what, ...(found && { price: found.price }) }] : [];
  };
  const each = sources.flatMap(({ line: { id, name } }) =>
    best.counts.has(id)
      ? asked({ without: id, name }, { without: new Set([id]) })
      : asked({ with: id, name }, { atLeastOne: id }),
  );
  const kits = sources.filter(
    ({ line, buyable }) =>
      line.kind === 'supply' && [...buyable.covers.values()].reduce((a, b) => a + b, 0) > 1,
  );
  const singles = kits.some(({ line }) => best.counts.has(line.id))
    ? asked({ singles: true }, { without: new Set(kits.map(({ line }) => line.id)) })
    : [];
  const suppliers = [
    ...new Set(
      sources.flatMap(({ line }) => (line.kind === 'supply' && line.supplier ? [line.supplier] : [])),
    ),
  ];
  const one =
    suppliers.length < 2
      ? []
      : suppliers.flatMap((onlyFrom) => {
          const others = sources.filter(
            ({ line }) => line.kind === 'supply' && line.supplier !== undefined && line.supplier !== onlyFrom,
          );
          return asked({ onlyFrom }, { without: new Set(others.map(({ line }) => line.id)) });
        });
  return [...each, ...singles, ...one];
}

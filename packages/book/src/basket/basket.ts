import type { Book } from '../fold/book.ts';
import { timeThere } from '../timeline/time-there.ts';
import { type Alternative, alternativesOf } from './alternatives.ts';
import { type Buying, type BuyingProblem, cheapestBuying, NOTHING, shortfall } from './buying-programme.ts';
import { type Need, needsOf } from './needs.ts';
import { type BasketLine, ofUse, type Source, sourcesOf } from './sources.ts';

export interface Basket {
  readonly needs: readonly Need[];
  readonly lines: readonly BasketLine[];
  readonly carriage: readonly { readonly supplier: string; readonly charge: number }[];
  readonly goods: number;
  readonly price: number;
  /** Said on orders so far. */
  readonly spent: number;
  readonly cap?: number;
  /** Of every price, by ISO 4217; absent where the job names none. */
  readonly currency?: string;
  /** Brought beyond what is needed, such as the rest of a kit. */
  readonly leftOver: readonly { readonly key: string; readonly name: string; readonly count: number }[];
  /** Days since the job's date, when it is past: nothing is barred for its time then. */
  readonly past?: number;
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
  /** Unix time [ms], for the job's date. */
  readonly now: number;
  /** Days there are; until the job's date when absent, and no limit when that is past. */
  readonly days?: number;
}

/**
 * The cheapest basket of what is on record that covers what was decided, wanted and planned, kits against singles and
 * one carriage against another; proven by a search that ran to its end.
 */
export function basketOf(book: Book, wishes: BasketWishes): Basket {
  const all = needsOf(book, wishes.taken);
  const open = all.filter(({ count }) => count > 0);
  const { days, past } = timeThere(book, wishes.now, wishes.days);
  const sources = ofUse(sourcesOf(book), open);
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
  const { spending_cap: cap, currency } = book.opened?.body ?? {};
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
    ...(currency !== undefined && { currency }),
    leftOver: leftOverOf(book, admitted, best, open),
    unmet,
    ...(past !== undefined && { past }),
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

const countsOf = (needs: readonly Need[]): Map<string, number> =>
  new Map(needs.map(({ key, count }) => [key, count]));

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

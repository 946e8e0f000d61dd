import type { Assessed } from '../assess/assessment.ts';
import { machiningKey, needKey, needOfPosition } from '../basket/need-name.ts';
import { broughtBy } from '../basket/needs.ts';
import type { Book } from '../fold/book.ts';
import { type Offer, offersOf } from '../plan/offers.ts';
import { requirementOf } from '../plan/requirements.ts';

/** Something on record that would bring a part back, or another in its place. */
export interface Way {
  readonly id: string;
  readonly name: string;
  readonly price: number;
  /** Undefined where nobody said which it is. */
  readonly decision: 'machine' | 'replace' | undefined;
  readonly size?: string;
  /** Verdicts it settles; empty for a supply, which is a part of its own and measured when it comes. */
  readonly settles: readonly Assessed[];
  readonly entry: string;
}

/** What is on record for a part with verdicts that are not in. */
export function waysFor(
  book: Book,
  part: string,
  position: string,
  unsettled: readonly Assessed[],
  size?: string,
): Way[] {
  const { offers } = offersOf(book);
  const repairs = offers.flatMap((offer): Way[] => {
    const settles = unsettled.filter((judgement) => requirementOf(judgement, [offer]) !== undefined);
    const own = ownSize(book, offer, settles);
    const brings = broughtBy(book, offer.id);
    const need = needOfPosition(book.sheet, position)?.need;
    const replaces = need !== undefined && brings.has(needKey(need, size ?? own));
    if (settles.length === 0 && !(size !== undefined && replaces)) return [];
    const said =
      offer.body.way ??
      (own !== undefined && brings.has(machiningKey(part)) ? 'machine' : replaces ? 'replace' : undefined);
    const madeTo = said === 'machine' ? own : (size ?? own);
    return [
      {
        id: offer.id,
        name: offer.body.name,
        price: offer.body.price,
        decision: settles.length === 0 ? 'replace' : said,
        settles,
        entry: offer.entry,
        ...(madeTo !== undefined && { size: madeTo }),
      },
    ];
  });
  const need = needOfPosition(book.sheet, position)?.need ?? part;
  const supplies = [...book.supplies.values()].flatMap(({ entry, body }): Way[] => {
    const covered = body.covers.find((one) => needKey(one.need, one.size) === needKey(need, size));
    if (!covered) return [];
    return [
      {
        id: body.supply,
        name: body.name,
        price: body.price,
        decision: 'replace',
        settles: [],
        entry: entry.id,
        ...(size !== undefined && { size }),
      },
    ];
  });
  return [...repairs, ...supplies].sort((a, b) => a.price - b.price);
}

/** The size an offer makes of what it settles. */
const ownSize = (book: Book, { body }: Offer, settles: readonly Assessed[]): string | undefined =>
  body.restores.find(
    ({ characteristic, size }) =>
      size !== undefined &&
      book.characteristics.get(characteristic)?.sizes?.some(({ name }) => name === size) &&
      settles.some((judgement) => judgement.characteristic.id === characteristic),
  )?.size;

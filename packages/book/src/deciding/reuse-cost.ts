import type { Assessed } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import { isMeantBy } from '../sheet/id-pattern.ts';
import type { Cover } from '../sheet/sheet.ts';

/** Whose hour it is when nobody says otherwise. */
const OWNER = 'owner';

/** Using a part again against replacing it now, by expected cost. */
export interface ReuseCost {
  /** The verdict from which the chance comes. */
  readonly judgement: Assessed;
  /** That it is outside its limits, by the readings; the others of the part can only add to it. */
  readonly chanceOut: number;
  /** Every cover that would hide it, with the work to reopen them. */
  readonly covers: readonly Cover[];
  readonly hours: number;
  /** What an hour is worth; absent where nobody said. */
  readonly rate?: number;
  /** Replacing or machining it now; the same again later. */
  readonly price: number;
  /** Chance times reopening and price; absent without a rate. */
  readonly reuse?: number;
  /** Above this worth of an hour replacing now is the cheaper: p (h r + c) = c. Absent where it is at any. */
  readonly evenRate?: number;
}

/**
 * Expected cost of using a part again: the chance that it is out, times what it then costs to reopen and to do what was
 * not done before.
 *
 *     E = p (h r + c)   against  c  now
 *
 * p chance of being outside the limits, h hours to reopen every cover that hides it, r worth of an hour, c price. The
 * chance of failing in service is not known and not in it: a part in its limits may fail, one outside may serve.
 *
 * @param judgements  of the part; the one likeliest out is taken
 * @returns  undefined where no verdict has a chance, such as leaves alone
 */
export function reuseCost(book: Book, judgements: readonly Assessed[], price: number): ReuseCost | undefined {
  const likeliest = judgements
    .flatMap((judgement) => {
      const chanceOut = chanceOutOf(judgement);
      return chanceOut === undefined ? [] : [{ judgement, chanceOut }];
    })
    .sort((a, b) => b.chanceOut - a.chanceOut)[0];
  if (!likeliest) return undefined;
  const covers = (book.sheet?.covers ?? []).filter(({ hides }) =>
    hides.characteristics.some((pattern) => isMeantBy(pattern, likeliest.judgement.characteristic.id)),
  );
  const hours = covers.reduce((sum, { reopen_hours }) => sum + reopen_hours, 0);
  const rate = book.terms.get(OWNER)?.body.hour;
  const { chanceOut } = likeliest;
  const even = hours > 0 && chanceOut > 0 ? (price / chanceOut - price) / hours : undefined;
  return {
    ...likeliest,
    covers: [...covers].sort((a, b) => a.order - b.order),
    hours,
    price,
    ...(rate !== undefined && { rate, reuse: chanceOut * (hours * rate + price) }),
    ...(even !== undefined && { evenRate: even }),
  };
}

/** That the worst place of a judgement is outside the limits that decide. */
function chanceOutOf({ governing, verdicts }: Assessed): number | undefined {
  const inside = governing && verdicts[governing]?.probabilityIn;
  return inside === undefined ? undefined : Math.min(1, Math.max(0, 1 - inside));
}

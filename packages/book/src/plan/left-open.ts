import type { Assessed } from '../assess/assessment.ts';
import { type ReuseCost, reuseCost } from '../deciding/reuse-cost.ts';
import type { Planning } from './planning.ts';

/** A verdict that cannot be told and that a plan leaves as it is, though something on offer would settle it. */
export interface LeftOpen {
  readonly judgement: Assessed;
  /** The cheapest on offer that would settle it, place by place. */
  readonly offers: readonly string[];
  readonly price: number;
  /** What leaving it costs in expectation; absent where the readings give no chance, such as leaves alone. */
  readonly cost?: ReuseCost;
}

/** What a plan leaves undecided, the likeliest to be out first. */
export function leftOpen({ book, undecided, bits }: Planning, taken: number): LeftOpen[] {
  const bitOf = (id: string): number => 1 << bits.bit.get(id)!;
  return undecided
    .filter(({ curedBy }) => !curedBy.every((ids) => ids.some((id) => taken & bitOf(id))))
    .map(({ judgement, curedBy }): LeftOpen => {
      const offers = [...new Set(curedBy.map((ids) => cheapestOf(ids, bits.offers)))];
      const price = offers.reduce((sum, id) => sum + bits.offers[bits.bit.get(id)!]!.body.price, 0);
      const cost = reuseCost(book, [judgement], price);
      return { judgement, offers, price, ...(cost && { cost }) };
    })
    .sort((a, b) => (b.cost?.chanceOut ?? 0.5) - (a.cost?.chanceOut ?? 0.5));
}

function cheapestOf(ids: readonly string[], offers: Planning['bits']['offers']): string {
  const prices = new Map(offers.map(({ id, body }) => [id, body.price]));
  return [...ids].sort((a, b) => prices.get(a)! - prices.get(b)!)[0]!;
}

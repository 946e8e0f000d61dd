import { boresToSuit, conformity, GAP_PER_BORE, metre } from '@fettle/core';
import type { Answers, Given, Runners } from './case.ts';

function usualGap(given: Given): Answers {
  const bore = given.si('bore');
  return { gap_min: GAP_PER_BORE.least * bore, gap_max: GAP_PER_BORE.most * bore };
}

/** Wear is counted from the upper limit of a new bore; a bore is finished to a piston that was measured. */
function rebore(given: Given): Answers {
  const wear = given.si('bore_max_measured') - given.list('standard_bore')[1]!;
  const within = conformity({ value: wear, u: 0 }, { upper: given.si('wear_limit') });
  const range = (key: string) => {
    const [least, greatest] = given.list(key);
    return { least: metre(least!), greatest: metre(greatest!) };
  };
  const bores = boresToSuit(range('oversize_pistons'), range('clearance'));
  return {
    wear,
    within_wear_limit: within.verdict === 'in' ? 1 : 0,
    'bore_for_smallest_0.50_piston_low': bores.least,
    'bore_for_largest_0.50_piston_high': bores.greatest,
  };
}

export const SIZE_RUNNERS: Runners = {
  'ring-gap-per-inch-rule': usualGap,
  'rebore-pick': rebore,
};

import type { Assessed } from '../assess/assessment.ts';
import type { MeasuringMove, MostDoubt } from '../plan/measuring.ts';
import type { RepairPlan } from '../plan/plan.ts';
import type { PlanSet } from '../plan/planning.ts';
import { chance, money } from './money.ts';

/** The name of an offer, by its id. */
export type OfferName = (id: string) => string;

/** What one set has that the other has not. */
export function difference(from: PlanSet, to: PlanSet, name: OfferName): string {
  const more = to.offers.filter((id) => !from.offers.includes(id)).map(name);
  const less = from.offers.filter((id) => !to.offers.includes(id)).map(name);
  return [
    ...(more.length > 0 ? [`with ${more.join(', ')}`] : []),
    ...(less.length > 0 ? [`without ${less.join(', ')}`] : []),
  ].join(', ');
}

/** How one surface names a judged place, a condition, and the pressure of a set there. */
export interface PlanNames {
  readonly offer: OfferName;
  readonly judged: (judgement: Assessed) => string;
  readonly condition: (index: number) => string;
  readonly pressure: (set: PlanSet, index: number) => string;
}

/** Said where measuring better saves nothing. */
export const NO_MEASURING =
  'No reading that is still in doubt decides between two plans: measuring better saves nothing here.';

/** What measuring better could save before anything is bought; the move itself is told beside it. */
export function measuringWords(
  move: MeasuringMove,
  { best, currency }: Pick<RepairPlan, 'best' | 'currency'>,
  names: PlanNames,
): string[] {
  if (move.about === 'verdict') {
    const { judgement, chanceIn, extra, saving } = move;
    return [
      `${names.judged(judgement)}: cannot tell, in with ${chance(chanceIn)}. Left alone in this plan; if it is out, ${money(extra, currency)} more. Measuring it before buying costs little and saves ${money(Math.round(saving), currency)} on average against buying for safety.`,
    ];
  }
  const { cheaper, less, saving, most, condition } = move;
  const looks =
    less === undefined
      ? `No plan is sure enough, but for ${money(cheaper.price, currency)} the figures as they look would do (${chance(cheaper.chance)}).`
      : `For ${money(cheaper.price, currency)}, ${money(less, currency)} less, the figures as they look would do, and are only not sure enough (${chance(cheaper.chance)}; ${best ? difference(best, cheaper, names.offer) : ''}). Knowing better could save up to ${money(Math.round(saving ?? 0), currency)} on average.`;
  return [
    looks,
    `It is weakest at ${names.condition(condition)}: ${names.pressure(cheaper, condition)}.${mostWords(most, names.offer)}`,
  ];
}

function mostWords(most: MostDoubt | undefined, name: OfferName): string {
  if (!most) return '';
  const share = `${most.share > 0.99 ? 'over 99' : Math.round(most.share * 100)} % of the variance`;
  if (most.from.kind === 'offer')
    return ` Most of the doubt (${share}) is what ${name(most.from.offer)} leaves open in ${most.from.of}: measure that before it goes in, or ask for a closer promise.`;
  const { instrumentName, of, finer } = most.from;
  const what = of.length > 0 ? ` (${of.join(', ')})` : '';
  return ` Most of the doubt (${share}) comes from ${instrumentName}${what}: ${finer === undefined ? 'nothing owned is finer; read again and pool, or borrow' : `read that with ${finer}`}.`;
}

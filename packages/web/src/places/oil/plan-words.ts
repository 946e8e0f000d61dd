import {
  type Assessed,
  type Chosen,
  type LeftOut,
  moneyWords,
  type PlanSet,
  planWords,
  type Requirement,
} from '@fettle/book';
import { printQuantity } from '@fettle/core';
import { fullName } from '../../words/place.ts';

export type Name = planWords.OfferName;
export const { money, chance: chanceWords } = moneyWords;
export const { difference } = planWords;

export const readyWords = (days: number): string =>
  days === 0 ? 'at once' : `after ${moneyWords.daysWords(days)}`;

export const runningWords = ({ speed, temperature }: { speed: number; temperature: number }): string =>
  `${printQuantity(speed, 'rpm', 0)}, ${printQuantity(temperature, 'degC', 0)}`;

const judged = ({ characteristic, place }: Assessed): string => fullName(characteristic, place);
export const listed = (requirements: readonly Requirement[]): string =>
  requirements.map(({ judgement }) => judged(judgement)).join('; ');
export const listedJudgements = (judgements: readonly Assessed[]): string =>
  judgements.map(judged).join('; ');

/** Why an offer is in the plan. */
export function reasonWords({ settles, forcedBy, neededBy, without }: Chosen, name: Name): string[] {
  const rest = settles.filter((one) => !forcedBy.includes(one));
  return [
    ...(forcedBy.length > 0 ? [`Forced by ${listed(forcedBy)}: nothing else on offer settles that.`] : []),
    ...(rest.length > 0 ? [`Settles ${listed(rest)}.`] : []),
    ...(neededBy.length > 0 ? [`Needed by ${neededBy.map(name).join(', ')}.`] : []),
    ...(settles.length === 0 && neededBy.length === 0 ? ['In for the pressure alone.'] : []),
    ...(without ? [`The plan without it: ${chanceWords(without.chance)}.`] : []),
  ];
}

/** Why an offer is not in the plan. */
export function leftOutWords(
  { offer, why, against, cheapestWith }: LeftOut,
  best: PlanSet,
  name: Name,
): string {
  switch (why) {
    case 'needs-what-is-not-offered':
      return `Needs what is not on offer: ${offer.body.needs.join(', ')}.`;
    case 'not-in-time':
      return 'Not there in time.';
    case 'short-of-pressure':
      return 'With it no set is sure enough of the pressures.';
    case 'not-admissible': {
      const forcing = against.map(
        ({ requirement, offers }) =>
          `${judged(requirement.judgement)} forces ${offers.map(name).join(' or ')}`,
      );
      return forcing.length > 0
        ? `Not admissible, however cheap: ${forcing.join('; ')}; that cannot be taken beside it.`
        : 'Not admissible: what it excludes is needed.';
    }
    case 'not-needed': {
      if (!cheapestWith) return 'Not needed.';
      const more = cheapestWith.price - best.price;
      const change = cheapestWith.chance - best.chance;
      const buys =
        Math.abs(change) < 0.001
          ? 'buys nothing in chance'
          : `the chance ${change > 0 ? 'rises' : 'falls'} to ${chanceWords(cheapestWith.chance)}`;
      return `Not needed: with it the cheapest plan costs ${more > 0 ? `${money(more)} more` : 'as much'}, and ${buys}.`;
    }
  }
}

import type { Assessed, Chosen, LeftOut, PlanSet, Requirement } from '@fettle/book';
import { printQuantity } from '@fettle/core';
import { fullName } from '../../words/place.ts';

export type Name = (id: string) => string;

/** A sum without a sign of currency: the job has one money and does not say which. */
export const money = (sum: number): string => (Number.isInteger(sum) ? String(sum) : sum.toFixed(2));

/** `72 %`; near the ends one figure more, and never a certainty that is none. */
export function chanceWords(chance: number): string {
  if (chance > 0.999) return 'over 99.9 %';
  if (chance < 0.001) return 'under 0.1 %';
  return `${(chance * 100).toFixed(chance > 0.95 || chance < 0.05 ? 1 : 0)} %`;
}

export function readyWords(days: number): string {
  if (days === 0) return 'at once';
  const [n, what] = days % 7 === 0 ? [days / 7, 'week'] : [days, 'day'];
  return `after ${n} ${what}${n === 1 ? '' : 's'}`;
}

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

/** What one set has that the other has not. */
export function difference(from: PlanSet, to: PlanSet, name: Name): string {
  const more = to.offers.filter((id) => !from.offers.includes(id)).map(name);
  const less = from.offers.filter((id) => !to.offers.includes(id)).map(name);
  return [
    ...(more.length > 0 ? [`with ${more.join(', ')}`] : []),
    ...(less.length > 0 ? [`without ${less.join(', ')}`] : []),
  ].join(', ');
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

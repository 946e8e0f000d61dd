import { inUnit, printQuantity } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import { MODEL_DOUBT_WORDS } from '../diagnosis/doubts.ts';
import type { LeftOpen } from '../plan/left-open.ts';
import type { RepairPlan } from '../plan/plan.ts';
import type { Chosen, LeftOut } from '../plan/plan-reasons.ts';
import type { Planning, PlanSet } from '../plan/planning.ts';
import type { Requirement } from '../plan/requirements.ts';
import { placeText } from '../sheet/places.ts';
import { about, type Currency, chance, daysWords, money } from './money.ts';
import { difference, type OfferName } from './plan.ts';
import { pressureDecimals } from './pressure.ts';
import { pastWords } from './timeline.ts';

/** What of a plan and its problem these words are made from. */
export type PlanTold = RepairPlan &
  Pick<Planning, 'confidence' | 'conditions' | 'offers' | 'unoffered' | 'unread' | 'days' | 'past'>;

/** The name of an offer by its id; what is no longer on offer keeps its id. */
export const offerNames =
  ({ offers }: Pick<Planning, 'offers'>): OfferName =>
  (id) =>
    offers.find((one) => one.id === id)?.body.name ?? id;

/** Places of one characteristic together: `Main journal 1, 3; Bore wear 3`. */
export function verdictList(all: readonly Assessed[]): string {
  const places = new Map<string, string[]>();
  for (const { characteristic, place } of all) {
    const at = placeText(place);
    places.set(characteristic.name, [...(places.get(characteristic.name) ?? []), ...(at === '' ? [] : [at])]);
  }
  return [...places].map(([name, at]) => `${name} ${at.join(', ')}`.trimEnd()).join('; ');
}

const listed = (all: readonly Requirement[]): string => verdictList(all.map(({ judgement }) => judgement));

/** `600 rpm and 93 °C` */
export const conditionWords = ({ running }: Planning['conditions'][number]): string =>
  `${printQuantity(running.speed, 'rpm', 0)} and ${printQuantity(running.temperature, 'degC', 0)}`;

/** How sure the pressures of a set are, and by what. */
const sureWords = (share: number): string => `${chance(share)} by readings and offers alone`;

/** What is left of that when the model is doubted too; empty where no pressure is wanted or predicted. */
const modelWords = ({ chanceWithModel }: PlanTold): string =>
  chanceWithModel === undefined
    ? ''
    : ` With the model’s own constants doubted as well: ${chance(chanceWithModel)}. Those doubts are guesses without a source (${MODEL_DOUBT_WORDS}); a real gauge outranks them.`;

/** The price against the cap of the job, when all is there, and how sure it is. */
export function totalWords(plan: PlanTold): string {
  const { best, cap, currency, days, past, conditions } = plan;
  if (!best) return '';
  const within =
    cap === undefined
      ? ''
      : best.price <= cap
        ? `, ${money(cap - best.price, currency)} under the cap of ${money(cap, currency)}`
        : `, ${money(best.price - cap, currency)} OVER the cap of ${money(cap, currency)}: no cheaper set does it`;
  const there = best.days === 0 ? 'all is there at once' : `all is there after ${daysWords(best.days)}`;
  const time = days === undefined ? '' : ` of ${daysWords(days)}`;
  const late =
    past === undefined
      ? ''
      : ` The date of the job is past, by ${pastWords(past)}: no offer is left out for its time.`;
  const sure = conditions.length > 0 ? `; every pressure as wanted: ${sureWords(best.chance)}` : '';
  return `Together ${money(best.price, currency)}${within}; ${there}${time}${sure}.${late}${modelWords(plan)}`;
}

/** What the next best costs, or that there is none; empty where there is no best. */
export function nextPlanWords({ best, next, currency }: PlanTold, name: OfferName): string {
  if (!best) return '';
  return next
    ? `The next cheapest plan that does without something of this one: ${money(next.price, currency)} (${difference(best, next, name)}), ${chance(next.chance)}, ${next.days === 0 ? 'there at once' : `there after ${daysWords(next.days)}`}.`
    : 'No other plan does: each part of it is the only way to something.';
}

/** Why there is no plan, and what the surest set would be. */
export function noPlanWords(plan: PlanTold, name: OfferName): string {
  const { frontier, late, days, confidence, currency } = plan;
  const surest = frontier.at(-1);
  if (surest)
    return `No set of these offers is ${chance(confidence)} sure. The surest is ${sureWords(surest.chance)}, for ${money(surest.price, currency)}: ${surest.offers.map(name).join(', ') || 'nothing bought'}.${modelWords(plan)}`;
  return late.length > 0 && days !== undefined
    ? `Within ${daysWords(days)} nothing on offer settles: ${listed(late)}.`
    : 'What is out cannot all be settled together: what one needs, another excludes.';
}

/** What it may cost to leave a verdict undecided, and what settling it costs now. */
function leftOpenWords(
  { judgement, offers, price, cost }: LeftOpen,
  name: OfferName,
  currency: Currency,
): string {
  const now = `${offers.map(name).join(', ')} would settle it for ${money(price, currency)}`;
  const what = `Cannot be told, and left as it is by this plan: ${verdictList([judgement])}`;
  if (!cost) return `${what}. ${now}.`;
  const { chanceOut, hours, rate, reuse } = cost;
  const work = rate === undefined ? `${hours} h of work` : `${hours} h × ${money(rate, currency)}`;
  const sum = `${chance(chanceOut)} × (${work} + ${money(price, currency)})`;
  const later =
    reuse === undefined
      ? `leaving it costs ${sum}`
      : `leaving it costs ${about(reuse, currency)} in expectation, ${sum}`;
  return `${what}, out with ${chance(chanceOut)}. ${now}; ${later}, if what is out has to be opened again.`;
}

/** What the plan leaves open: undecided, late, without an offer, not read. */
export const openWords = ({ best, late, left, offers, unoffered, unread, currency }: PlanTold): string[] => [
  ...left.map((one) => leftOpenWords(one, offerNames({ offers }), currency)),
  ...(late.length > 0 && best ? [`Not in time: ${listed(late)}.`] : []),
  ...(unoffered.length > 0 ? [`Out, and no offer for this yet: ${verdictList(unoffered)}.`] : []),
  ...(unread.length > 0
    ? [
        `Not read yet; were it out, something on offer would settle it, and the plan may change: ${verdictList(unread)}.`,
      ]
    : []),
];

/** Why an offer is in the plan. */
export function reasonWords({ settles, forcedBy, neededBy }: Chosen, name: OfferName): string[] {
  const rest = settles.filter((one) => !forcedBy.includes(one));
  return [
    ...(forcedBy.length > 0 ? [`Forced by ${listed(forcedBy)}: nothing else on offer settles that.`] : []),
    ...(rest.length > 0 ? [`Settles ${listed(rest)}.`] : []),
    ...(neededBy.length > 0 ? [`Needed by ${neededBy.map(name).join(', ')}.`] : []),
    ...(settles.length === 0 && neededBy.length === 0 ? ['In for the pressure alone.'] : []),
  ];
}

/** What an offer of the plan brings the gauge, alone and on top of the rest; none where it does not touch the oil. */
export function gainWords(plan: PlanTold, { alone, without }: Chosen, unit: string): string[] {
  const { best, asNow, conditions } = plan;
  if (!alone || !without || !best) return [];
  const gains = (from: PlanSet['pressures'], to: PlanSet['pressures']): string =>
    conditions
      .map(({ running }, i) => {
        const words = inUnit(to[i]!.value - from[i]!.value, unit).toFixed(pressureDecimals(unit));
        const at = `at ${printQuantity(running.speed, 'rpm', 0)}`;
        if (Number(words) === 0) return `nothing ${at}`;
        return `${words.startsWith('-') ? `−${words.slice(1)}` : `+${words}`} ${unit} ${at}`;
      })
      .join(', ');
  return [
    `Alone it brings ${gains(asNow.pressures, alone)}; on top of all the rest ${gains(without.pressures, best.pressures)}. The plan without it: ${chance(without.chance)}.`,
  ];
}

export const wearWords = ({ byWearOnly }: Chosen): string[] =>
  byWearOnly.length === 0
    ? []
    : [`Caution: ${byWearOnly.join(', ')} will be in by the limits for wear and out by those for new parts.`];

/** Why an offer is not in the plan. */
export function leftOutWords(
  { offer, why, against, cheapestWith }: LeftOut,
  { best, currency }: Pick<RepairPlan, 'best' | 'currency'>,
  name: OfferName,
): string {
  switch (why) {
    case 'needs-what-is-not-offered':
      return `Needs what is not on offer: ${offer.body.needs.join(', ')}.`;
    case 'not-in-time':
      return 'Not there in time.';
    case 'short-of-pressure':
      return 'With it no set is sure enough of the pressures.';
    case 'not-admissible':
      return against.length > 0
        ? `Not admissible, however cheap: ${againstWords(against, name)}; that cannot be taken beside it.`
        : 'Not admissible: what it excludes is needed.';
    case 'not-needed':
      return notNeededWords(cheapestWith, best, currency);
  }
}

function notNeededWords(
  cheapestWith: PlanSet | undefined,
  best: PlanSet | undefined,
  currency: Currency,
): string {
  if (!cheapestWith || !best) return 'Not needed.';
  const more = cheapestWith.price - best.price;
  const change = cheapestWith.chance - best.chance;
  const buys =
    Math.abs(change) < 0.001
      ? 'and buys nothing in chance'
      : `and the chance ${change > 0 ? 'rises' : 'falls'} to ${chance(cheapestWith.chance)}`;
  return `Not needed: the cheapest plan with it costs ${money(cheapestWith.price, currency)}, ${more > 0 ? `${money(more, currency)} more` : 'as much'}, ${buys}.`;
}

/** `Main journal 3; Rod journal 2 force the grind`: what forces the same thing stands together. */
function againstWords(against: LeftOut['against'], name: OfferName): string {
  const forced = new Map<string, Requirement[]>();
  for (const { requirement, offers } of against) {
    const what = offers.map(name).join(' or ');
    forced.set(what, [...(forced.get(what) ?? []), requirement]);
  }
  return [...forced]
    .map(([what, by]) => `${listed(by)} ${by.length === 1 ? 'forces' : 'force'} ${what}`)
    .join('; ');
}

/** What a plan rests on, never left unsaid. */
export const planGrounds = ({ conditions }: Pick<Planning, 'conditions'>): string[] => [
  'The search is exact over the offers on record. An offer cures what it says it does, and is proven only when it is measured in place. A restored clearance is taken anywhere within its limits for new parts unless its doubt was said.',
  ...(conditions.length > 0
    ? [
        'The chance is first-order. The set is chosen by the doubt of readings and offers alone: the circuit’s own constants (discharge coefficients, eccentricities, film temperatures, leak paths) are assumed, and what their doubt leaves of the chance is said beside it.',
      ]
    : []),
];

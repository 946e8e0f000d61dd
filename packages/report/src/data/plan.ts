import {
  type Assessment,
  type Book,
  type Chosen,
  type LeftOut,
  measuringMoves,
  type Planning,
  type PlanSet,
  planningOf,
  pressureDecimals,
  pressureUnit,
  pressureWords,
  type RepairPlan,
  repairPlan,
} from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { chanceWords, daysWords, difference, money, requirementList, verdictList } from '../words/plan.ts';
import { rangeWords } from '../words/printed-quantity.ts';
import { frontierPages, measuringSentences } from './plan-money.ts';

/** How sure the printed plan must be of every pressure the sheet wants. */
const CONFIDENCE = 0.95;

type Planned = Planning & RepairPlan;
type Name = (id: string) => string;

const blank = {
  title: '',
  chosen: [],
  pressures: [],
  left_out: [],
  said: [],
  rests_on: [],
  frontier: null,
  measuring: [],
};

/** The cheapest set of the offers on record that does it, why each is in, and why the others are not. */
export function planPages(book: Book, assessed: Assessment) {
  if (book.offers.size === 0)
    return { ...blank, why_not: 'No repair was offered at a price, so there is nothing to plan with.' };
  try {
    const planning = planningOf(book, assessed, { confidence: CONFIDENCE });
    if (!planning.ok) return { ...blank, why_not: planning.issues[0]!.message };
    const plan = repairPlan(planning.value);
    return plannedPages(
      { ...planning.value, ...plan },
      measuringSentences(
        { ...planning.value, ...plan },
        measuringMoves(planning.value, plan, assessed.judgements),
      ),
    );
  } catch (error) {
    // A circuit may find no balance with clearances that nobody meant.
    if (!(error instanceof RangeError)) throw error;
    return { ...blank, why_not: `There is no plan: the oil circuit cannot be solved. ${error.message}` };
  }
}

function plannedPages(plan: Planned, measuring: readonly string[]) {
  const name: Name = (id) => plan.offers.find((one) => one.id === id)?.body.name ?? id;
  return {
    why_not: '',
    title: plan.best ? `The cheapest plan: ${money(plan.best.price)}` : 'No plan',
    said: [...totalWords(plan, name), ...openWords(plan)],
    chosen: plan.chosen.map((one) => ({
      name: one.offer.body.name,
      price: money(one.offer.body.price),
      assumed: one.offer.body.trust === 'assumed',
      ready: daysWords(one.ready),
      why: [...reasonWords(one, name), ...oilWords(plan, one), ...wearWords(one)].join(' '),
    })),
    pressures: pressureRows(plan),
    frontier: frontierPages(plan, name),
    measuring,
    left_out: plan.leftOut.map((one) => ({
      name: one.offer.body.name,
      price: money(one.offer.body.price),
      why: leftOutWords(one, plan.best, name),
    })),
    rests_on: [
      'The search is exact over the offers on record. An offer cures what it says it does, and is proven only when it is measured in place. A restored clearance is taken anywhere within its limits for new parts unless its doubt was said.',
      ...(plan.conditions.length > 0
        ? [
            'The chance is first-order, by the doubt of readings and offers alone. The circuit’s own constants are assumed and carry no doubt here, so it says more than is known: a real gauge outranks it.',
          ]
        : []),
    ],
  };
}

function totalWords(plan: Planned, name: Name): string[] {
  const { best, next, cap, days, late } = plan;
  const notInTime = late.length > 0 ? [`Not in time: ${requirementList(late)}.`] : [];
  if (!best) return [...noPlanWords(plan, name), ...notInTime];
  const within =
    cap === undefined
      ? ''
      : best.price <= cap
        ? `, ${money(cap - best.price)} under the cap of ${money(cap)}`
        : `, ${money(best.price - cap)} OVER the cap of ${money(cap)}: no cheaper set does it`;
  const there = best.days === 0 ? 'all is there at once' : `all is there after ${daysWords(best.days)}`;
  const chance = plan.conditions.length > 0 ? `; every pressure as wanted: ${chanceWords(best.chance)}` : '';
  return [
    ...(plan.chosen.length === 0 ? ['Nothing has to be bought.'] : []),
    `Together ${money(best.price)}${within}; ${there}${days === undefined ? '' : ` of ${daysWords(days)}`}${chance}.`,
    next
      ? `The next cheapest plan that does without something of this one: ${money(next.price)} (${difference(best, next, name)}), ${chanceWords(next.chance)}.`
      : 'No other plan does: each part of it is the only way to something.',
    ...notInTime,
  ];
}

function noPlanWords({ frontier, late, confidence }: Planned, name: Name): string[] {
  const surest = frontier.at(-1);
  if (!surest)
    return late.length > 0
      ? ['Nothing on offer does it in the time there is.']
      : ['What is out cannot all be settled together: what one needs, another excludes.'];
  return [
    `No set of these offers is ${chanceWords(confidence)} sure. The surest is ${chanceWords(surest.chance)}, for ${money(surest.price)}: ${surest.offers.map(name).join(', ') || 'nothing bought'}.`,
  ];
}

function openWords({ unoffered, unread, refused, dryBecause }: Planned): string[] {
  return [
    ...(unoffered.length > 0 ? [`Out, and no offer for this yet: ${verdictList(unoffered)}.`] : []),
    ...(unread.length > 0
      ? [
          `Not read yet; were it out, something on offer would settle it, and the plan may change: ${verdictList(unread)}.`,
        ]
      : []),
    ...refused.map(
      ({ offer, issues }) => `Cannot be reckoned with: ${offer.name}. ${issues[0]?.message ?? ''}`,
    ),
    ...(dryBecause ? [`Pressure was not looked at: ${dryBecause.message}`] : []),
  ];
}

function reasonWords({ settles, forcedBy, neededBy }: Chosen, name: Name): string[] {
  const rest = settles.filter((one) => !forcedBy.includes(one));
  return [
    ...(forcedBy.length > 0
      ? [`Forced by ${requirementList(forcedBy)}: nothing else on offer settles that.`]
      : []),
    ...(rest.length > 0 ? [`Settles ${requirementList(rest)}.`] : []),
    ...(neededBy.length > 0 ? [`Needed by ${neededBy.map(name).join(', ')}.`] : []),
    ...(settles.length === 0 && neededBy.length === 0 ? ['In for the pressure alone.'] : []),
  ];
}

function oilWords(plan: Planned, { alone, without }: Chosen): string[] {
  if (!alone || !without || !plan.best) return [];
  const unit = pressureUnit(plan.book);
  const gains = (from: PlanSet['pressures'], to: PlanSet['pressures']): string =>
    plan.conditions
      .map(({ running }, i) => {
        const words = inUnit(to[i]!.value - from[i]!.value, unit).toFixed(pressureDecimals(unit));
        const at = `at ${printQuantity(running.speed, 'rpm', 0)}`;
        if (Number(words) === 0) return `nothing ${at}`;
        return `${words.startsWith('-') ? `−${words.slice(1)}` : `+${words}`} ${unit} ${at}`;
      })
      .join(', ');
  return [
    `Alone it brings ${gains(plan.asNow.pressures, alone)}; on top of all the rest ${gains(without.pressures, plan.best.pressures)}. The plan without it: ${chanceWords(without.chance)}.`,
  ];
}

const wearWords = ({ byWearOnly }: Chosen): string[] =>
  byWearOnly.length === 0
    ? []
    : [`Caution: ${byWearOnly.join(', ')} will be in by the limits for wear and out by those for new parts.`];

function pressureRows(plan: Planned) {
  const shown = plan.best ?? plan.frontier.at(-1);
  if (plan.asNow.pressures.length === 0 || !shown) return [];
  const unit = pressureUnit(plan.book);
  return plan.conditions.map(({ running, wanted }, i) => ({
    at: `${printQuantity(running.speed, 'rpm', 0)}, ${printQuantity(running.temperature, 'degC', 0)}`,
    wanted: rangeWords(wanted.printed.lower, wanted.printed.upper),
    now: pressureWords(plan.asNow.pressures[i]!, unit),
    planned: pressureWords(shown.pressures[i]!, unit),
    chance: chanceWords(shown.chances[i]!),
  }));
}

function leftOutWords(
  { offer, why, against, cheapestWith }: LeftOut,
  best: PlanSet | undefined,
  name: Name,
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
      return notNeededWords(cheapestWith, best);
  }
}

function notNeededWords(cheapestWith: PlanSet | undefined, best: PlanSet | undefined): string {
  if (!cheapestWith || !best) return 'Not needed.';
  const more = cheapestWith.price - best.price;
  const change = cheapestWith.chance - best.chance;
  const buys =
    Math.abs(change) < 0.001
      ? 'and buys nothing in chance'
      : `and the chance ${change > 0 ? 'rises' : 'falls'} to ${chanceWords(cheapestWith.chance)}`;
  return `Not needed: the cheapest plan with it costs ${money(cheapestWith.price)}, ${more > 0 ? `${money(more)} more` : 'as much'}, ${buys}.`;
}

/** `Main journal 3, Rod journal 2 force the grind`; what forces the same thing stands together. */
function againstWords(against: LeftOut['against'], name: Name): string {
  const forced = new Map<string, LeftOut['against'][number]['requirement'][]>();
  for (const { requirement, offers } of against) {
    const what = offers.map(name).join(' or ');
    forced.set(what, [...(forced.get(what) ?? []), requirement]);
  }
  return [...forced]
    .map(([what, by]) => `${requirementList(by)} ${by.length === 1 ? 'forces' : 'force'} ${what}`)
    .join('; ');
}

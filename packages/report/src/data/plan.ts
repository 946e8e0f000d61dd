import {
  type Assessment,
  type Book,
  measuringMoves,
  moneyWords,
  type Planning,
  planningOf,
  planReasonWords,
  pressureUnit,
  pressureWords,
  type RepairPlan,
  repairPlan,
} from '@fettle/book';
import { rangeWords } from '../words/printed-quantity.ts';
import { frontierPages, measuringSentences } from './plan-money.ts';

const { money, chance: chanceWords, daysWords } = moneyWords;

/** How sure the printed plan must be of every pressure the sheet wants. */
const CONFIDENCE = 0.95;

type Planned = Planning & RepairPlan;

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
export function planPages(book: Book, assessed: Assessment, now: number) {
  if (book.offers.size === 0)
    return { ...blank, why_not: 'No repair was offered at a price, so there is nothing to plan with.' };
  try {
    const planning = planningOf(book, assessed, { confidence: CONFIDENCE, now });
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
  const name = planReasonWords.offerNames(plan);
  const unit = pressureUnit(plan.book);
  return {
    why_not: '',
    title: plan.best ? `The cheapest plan: ${money(plan.best.price, plan.currency)}` : 'No plan',
    said: saidOf(plan),
    chosen: plan.chosen.map((one) => ({
      name: one.offer.body.name,
      price: money(one.offer.body.price, plan.currency),
      assumed: one.offer.body.trust === 'assumed',
      ready: daysWords(one.ready),
      why: [
        ...planReasonWords.reasonWords(one, name),
        ...planReasonWords.gainWords(plan, one, unit),
        ...planReasonWords.wearWords(one),
      ].join(' '),
    })),
    pressures: pressureRows(plan),
    frontier: frontierPages(plan, name),
    measuring,
    left_out: plan.leftOut.map((one) => ({
      name: one.offer.body.name,
      price: money(one.offer.body.price, plan.currency),
      why: planReasonWords.leftOutWords(one, plan, name),
    })),
    rests_on: planReasonWords.planGrounds(plan),
  };
}

function saidOf(plan: Planned): string[] {
  const name = planReasonWords.offerNames(plan);
  return [
    ...(plan.best
      ? [
          ...(plan.chosen.length === 0 ? ['Nothing has to be bought.'] : []),
          planReasonWords.totalWords(plan),
          planReasonWords.nextPlanWords(plan, name),
        ]
      : [planReasonWords.noPlanWords(plan, name)]),
    ...planReasonWords.openWords(plan),
    ...plan.refused.map(
      ({ offer, issues }) => `Cannot be reckoned with: ${offer.name}. ${issues[0]?.message ?? ''}`,
    ),
    ...(plan.dryBecause ? [`Pressure was not looked at: ${plan.dryBecause.message}`] : []),
  ];
}

function pressureRows(plan: Planned) {
  const shown = plan.best ?? plan.frontier.at(-1);
  if (plan.asNow.pressures.length === 0 || !shown) return [];
  const unit = pressureUnit(plan.book);
  return plan.conditions.map((condition, i) => ({
    at: planReasonWords.conditionWords(condition),
    wanted: rangeWords(condition.wanted.printed.lower, condition.wanted.printed.upper),
    now: pressureWords(plan.asNow.pressures[i]!, unit),
    planned: pressureWords(shown.pressures[i]!, unit),
    chance: chanceWords(shown.chances[i]!),
  }));
}

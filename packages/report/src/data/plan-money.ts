import {
  type Assessed,
  type MeasuringMove,
  moneyWords,
  type Planning,
  type PlanSet,
  planReasonWords,
  planWords,
  pressureUnit,
  pressureWords,
  type RepairPlan,
} from '@fettle/book';
import { costFrontierSvg } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { moveWords } from '../words/move.ts';
import { TEXT_WIDTH } from './maps.ts';

const { money, chance: chanceWords } = moneyWords;
const { difference } = planWords;
const { verdictList } = planReasonWords;

type Planned = Planning & RepairPlan;
type Name = (id: string) => string;

/** What each further sum buys, drawn over the sets that pressure alone would ask for. */
export function frontierPages(plan: Planned, name: Name) {
  const { frontier, pressureOnly, best, confidence, cap } = plan;
  if (frontier.length === 0 || plan.conditions.length === 0) return null;
  const point = ({ price, chance }: PlanSet, i: number) => ({ price, chance, name: String(i + 1) });
  const alt = frontier
    .map(({ price, chance }) => `${money(price, plan.currency)}: ${chanceWords(chance)}`)
    .join('; ');
  return {
    alt,
    svg: costFrontierSvg(
      {
        priceAxis: plan.currency === undefined ? 'price' : `price, ${plan.currency}`,
        chanceAxis: 'chance, %',
        points: frontier.map((one, i) => ({ ...point(one, i), best: one.price === best?.price })),
        beside: pressureOnly.map((one) => ({ ...point(one, 0), name: '' })),
        wanted: { chance: confidence, text: printableText(`asked for ${chanceWords(confidence)}`) },
        ...(cap !== undefined && {
          cap: { price: cap, text: printableText(`cap ${money(cap, plan.currency)}`) },
        }),
      },
      { title: 'What money buys', desc: alt, width: TEXT_WIDTH, profile: 'paper', paper: true },
    ),
    steps: frontier.map((one, i) => {
      const before = frontier[i - 1];
      const what = before
        ? `${money(one.price - before.price, plan.currency)} more: ${difference(before, one, name)}`
        : `${one.offers.length} offers, the least that settles every verdict`;
      return {
        number: String(i + 1),
        price: money(one.price, plan.currency),
        chance: chanceWords(one.chance),
        what,
      };
    }),
    beside: pressureOnly.map((one) => ({
      price: money(one.price, plan.currency),
      chance: chanceWords(one.chance),
      what: one.offers.map(name).join(', ') || 'nothing bought',
    })),
  };
}

/** Where measuring better comes before buying, in sentences; one sentence where it saves nothing. */
export function measuringSentences(plan: Planned, moves: readonly MeasuringMove[]): string[] {
  if (moves.length === 0) return [planWords.NO_MEASURING];
  const unit = pressureUnit(plan.book);
  const names = {
    offer: planReasonWords.offerNames(plan),
    judged: (judgement: Assessed) => verdictList([judgement]),
    condition: (i: number) => planReasonWords.conditionWords(plan.conditions[i]!),
    pressure: (set: PlanSet, i: number) => pressureWords(set.pressures[i]!, unit),
  };
  return moves.map((move) =>
    [
      ...planWords.measuringWords(move, plan, names),
      ...(move.about === 'verdict' && move.next ? [moveWords(move.judgement, move.next)] : []),
    ].join(' '),
  );
}

import { type MeasuringMove, type Planning, type PlanSet, placeText, type RepairPlan } from '@fettle/book';
import { costFrontierSvg } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { moveWords } from '../words/move.ts';
import { chanceWords, money } from '../words/plan.ts';
import { TEXT_WIDTH } from './maps.ts';

type Planned = Planning & RepairPlan;
type Name = (id: string) => string;

/** What each further sum buys, drawn over the sets that pressure alone would ask for. */
export function frontierPages(plan: Planned, name: Name) {
  const { frontier, pressureOnly, best, confidence, cap } = plan;
  if (frontier.length === 0 || plan.conditions.length === 0) return null;
  const point = ({ price, chance }: PlanSet, i: number) => ({ price, chance, name: String(i + 1) });
  const alt = frontier.map(({ price, chance }) => `${money(price)}: ${chanceWords(chance)}`).join('; ');
  return {
    alt,
    svg: costFrontierSvg(
      {
        priceAxis: 'price',
        chanceAxis: 'chance, %',
        points: frontier.map((one, i) => ({ ...point(one, i), best: one.price === best?.price })),
        beside: pressureOnly.map((one) => ({ ...point(one, 0), name: '' })),
        wanted: { chance: confidence, text: printableText(`asked for ${chanceWords(confidence)}`) },
        ...(cap !== undefined && { cap: { price: cap, text: printableText(`cap ${money(cap)}`) } }),
      },
      { title: 'What money buys', desc: alt, width: TEXT_WIDTH, profile: 'paper', paper: true },
    ),
    steps: frontier.map((one, i) => {
      const before = frontier[i - 1];
      const what = before
        ? `${money(one.price - before.price)} more: ${more(before, one, name)}`
        : `${one.offers.length} offers, the least that settles every verdict`;
      return { number: String(i + 1), price: money(one.price), chance: chanceWords(one.chance), what };
    }),
    beside: pressureOnly.map((one, i) => {
      const before = pressureOnly[i - 1];
      return {
        price: money(one.price),
        chance: chanceWords(one.chance),
        what: before ? more(before, one, name) : one.offers.map(name).join(', ') || 'nothing bought',
      };
    }),
  };
}

function more(from: PlanSet, to: PlanSet, name: Name): string {
  const added = to.offers.filter((id) => !from.offers.includes(id)).map(name);
  const dropped = from.offers.filter((id) => !to.offers.includes(id)).map(name);
  return [
    ...(added.length > 0 ? [`with ${added.join(', ')}`] : []),
    ...(dropped.length > 0 ? [`without ${dropped.join(', ')}`] : []),
  ].join(', ');
}

/** Where measuring better comes before buying, in sentences; one sentence where it saves nothing. */
export function measuringWords(moves: readonly MeasuringMove[]): string[] {
  if (moves.length === 0)
    return [
      'No reading that is still in doubt decides between two plans: measuring better saves nothing here.',
    ];
  return moves.map((move) => {
    if (move.about === 'verdict') {
      const { judgement, chanceIn, extra, saving, next } = move;
      const at = placeText(judgement.place);
      const what = `${judgement.characteristic.name}${at === '' ? '' : ` ${at}`}`;
      return `${what}: cannot tell, in with ${chanceWords(chanceIn)}. Left alone in this plan; if it is out, ${money(extra)} more. Measuring it before buying saves ${money(Math.round(saving))} on average against buying for safety.${next ? ` ${moveWords(judgement, next)}` : ''}`;
    }
    const { cheaper, less, saving } = move;
    return less === undefined
      ? `No plan is sure enough, but for ${money(cheaper.price)} the figures as they look would do (${chanceWords(cheaper.chance)}).`
      : `For ${money(cheaper.price)}, ${money(less)} less, the figures as they look would do, and are only not sure enough (${chanceWords(cheaper.chance)}). Knowing better could save up to ${money(Math.round(saving ?? 0))} on average.`;
  });
}

import type { MeasuringMove, MostDoubt, PlanSet } from '@fettle/book';
import { costFrontierText } from '@fettle/draw';
import { moveWords, nameOf } from './judgement.ts';
import {
  chanceWords,
  conditionWords,
  difference,
  money,
  type Name,
  type Planned,
  set,
  verdictWords,
} from './plan-words.ts';
import { pressureUnit, pressureWords } from './pressure.ts';
import { heading } from './table.ts';

export function frontierLines(plan: Planned, name: Name): string[] {
  const { frontier, pressureOnly, confidence, cap } = plan;
  if (pressureOnly.length === 0) return [];
  const points = [
    ...pressureOnly.map(({ price, chance }) => ({ price, chance, mark: '·' })),
    ...frontier.map(({ price, chance }) => ({ price, chance, mark: '●' })),
  ];
  return [
    ...heading('What money buys: the chance that every pressure is as wanted'),
    ...costFrontierText(points, { wanted: confidence, ...(cap !== undefined && { cap }) }).map(
      (line) => `  ${line}`,
    ),
    '  ● settles every verdict   · by pressure alone, verdicts left as they are',
    '',
    ...stepLines('Settling every verdict:', frontier, name),
    ...stepLines('If pressure alone counted (not admissible, for comparison):', pressureOnly, name),
  ];
}

function stepLines(title: string, sets: readonly PlanSet[], name: Name): string[] {
  const [first, ...rest] = sets;
  if (!first) return [];
  const start =
    first.offers.length === 0 ? 'nothing bought' : `${first.offers.length} offers, the least that has to be`;
  return [
    `  ${title}`,
    ...set(`${money(first.price)}: ${chanceWords(first.chance)}, ${start}.`, '    '),
    ...rest.flatMap((next, i) => {
      const before = sets[i]!;
      return set(
        `${money(next.price - before.price)} more (${money(next.price)}): ${chanceWords(next.chance)}, ${difference(before, next, name)}.`,
        '    ',
      );
    }),
    ...(rest.length === 0 ? ['    More money buys no more chance.'] : []),
  ];
}

export function moveLines(plan: Planned, moves: readonly MeasuringMove[], name: Name): string[] {
  return [
    ...heading('Measuring before buying'),
    ...(moves.length === 0
      ? set(
          'No reading that is still in doubt decides between two plans: measuring better saves nothing here.',
        )
      : moves.flatMap((move) => moveWordsOf(plan, move, name))),
  ];
}

function moveWordsOf(plan: Planned, move: MeasuringMove, name: Name): string[] {
  if (move.about === 'verdict')
    return [
      ...set(
        `${verdictWords(move.judgement)} [${nameOf(move.judgement)}]: cannot tell, in with ${chanceWords(move.chanceIn)}. Left alone in this plan; if it is out, ${money(move.extra)} more. Measuring it before buying costs little and saves ${money(Math.round(move.saving))} on average against buying for safety.`,
      ),
      ...(move.next ? set(moveWords(move.judgement, move.next), '    ') : []),
    ];
  const { cheaper, less, saving, most } = move;
  const condition = plan.conditions[move.condition]!;
  const unit = pressureUnit(plan.book);
  const first =
    less === undefined
      ? `No plan is sure enough, but for ${money(cheaper.price)} the figures as they look would do (${chanceWords(cheaper.chance)}).`
      : `For ${money(cheaper.price)}, ${money(less)} less, the figures as they look would do, and are only not sure enough (${chanceWords(cheaper.chance)}; ${plan.best ? difference(plan.best, cheaper, name) : ''}). Knowing better could save up to ${money(Math.round(saving ?? 0))} on average.`;
  return [
    ...set(first),
    ...set(
      `It is weakest at ${conditionWords(condition)}: ${pressureWords(cheaper.pressures[move.condition]!, unit)}.${mostWords(most, name)}`,
      '    ',
    ),
  ];
}

function mostWords(most: MostDoubt | undefined, name: Name): string {
  if (!most) return '';
  const share = `${most.share > 0.99 ? 'over 99' : Math.round(most.share * 100)} % of the variance`;
  if (most.from.kind === 'offer')
    return ` Most of the doubt (${share}) is what ${name(most.from.offer)} leaves open in ${most.from.of}: measure that before it goes in, or ask for a closer promise.`;
  const { instrumentName, of, finer } = most.from;
  const what = of.length > 0 ? ` (${of.join(', ')})` : '';
  return ` Most of the doubt (${share}) comes from ${instrumentName}${what}: ${finer === undefined ? 'nothing owned is finer; read again and pool, or borrow' : `read that with ${finer}`}.`;
}

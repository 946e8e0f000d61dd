import {
  type Assessed,
  type MeasuringMove,
  type PlanSet,
  planReasonWords,
  planWords,
  pressureUnit,
  pressureWords,
} from '@fettle/book';
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
} from './plan-words.ts';
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
    ...stepLines('Settling every verdict:', frontier, plan, name),
    ...stepLines('If pressure alone counted (not admissible, for comparison):', pressureOnly, plan, name),
  ];
}

function stepLines(title: string, sets: readonly PlanSet[], plan: Planned, name: Name): string[] {
  const [first, ...rest] = sets;
  if (!first) return [];
  const start =
    first.offers.length === 0 ? 'nothing bought' : `${first.offers.length} offers, the least that has to be`;
  return [
    `  ${title}`,
    ...set(`${money(first.price, plan.currency)}: ${chanceWords(first.chance)}, ${start}.`, '    '),
    ...rest.flatMap((next, i) => {
      const before = sets[i]!;
      return set(
        `${money(next.price - before.price, plan.currency)} more (${money(next.price, plan.currency)}): ${chanceWords(next.chance)}, ${difference(before, next, name)}.`,
        '    ',
      );
    }),
    ...(rest.length === 0 ? ['    More money buys no more chance.'] : []),
  ];
}

export function moveLines(plan: Planned, moves: readonly MeasuringMove[], name: Name): string[] {
  const unit = pressureUnit(plan.book);
  const names = {
    offer: name,
    judged: (judgement: Assessed) => `${planReasonWords.verdictList([judgement])} [${nameOf(judgement)}]`,
    condition: (i: number) => conditionWords(plan.conditions[i]!),
    pressure: (one: PlanSet, i: number) => pressureWords(one.pressures[i]!, unit),
  };
  return [
    ...heading('Measuring before buying'),
    ...(moves.length === 0 ? set(planWords.NO_MEASURING) : []),
    ...moves.flatMap((move) => [
      ...planWords.measuringWords(move, plan, names).flatMap((text, i) => set(text, i === 0 ? '  ' : '    ')),
      ...(move.about === 'verdict' && move.next ? set(moveWords(move.judgement, move.next), '    ') : []),
    ]),
  ];
}

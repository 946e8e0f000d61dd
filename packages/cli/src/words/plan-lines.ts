import {
  type MeasuringMove,
  moneyWords,
  planReasonWords,
  pressureUnit,
  pressureWords,
  wantedWords,
} from '@fettle/book';
import { frontierLines, moveLines } from './plan-money-lines.ts';
import { chanceWords, conditionWords, daysWords, money, type Name, type Planned, set } from './plan-words.ts';
import { heading, table } from './table.ts';

/** A plan in full, for a person. */
export function planLines(plan: Planned, moves: readonly MeasuringMove[] | undefined): string[] {
  const name = planReasonWords.offerNames(plan);
  return [
    ...set(titleWords(plan), ''),
    ...bestLines(plan, name),
    ...pressureLines(plan),
    ...whyLines(plan, name),
    ...leftOutLines(plan, name),
    ...frontierLines(plan, name),
    ...(moves ? moveLines(plan, moves, name) : []),
    ...openLines(plan),
    ...restsOn(plan, moves === undefined),
  ];
}

function titleWords(plan: Planned): string {
  const grade =
    plan.grade === undefined ? '' : `, ${plan.book.sheet?.oil?.grades[plan.grade]?.name ?? plan.grade}`;
  return `Repair plan${grade}: ${plan.offers.length} offers, to be ${chanceWords(plan.confidence)} sure of every pressure the sheet wants`;
}

function bestLines(plan: Planned, name: Name): string[] {
  const { best } = plan;
  if (!best) return [...heading('No plan'), ...noPlanLines(plan, name)];
  const rows = plan.chosen.map(({ offer, ready }) => [
    offer.body.name,
    money(offer.body.price, plan.currency),
    offer.body.trust === 'assumed' ? 'price assumed' : '',
    ready === 0 ? 'at once' : `there after ${daysWords(ready)}`,
  ]);
  return [
    ...heading(`The cheapest plan: ${money(best.price, plan.currency)}`),
    ...(rows.length > 0 ? table(rows, '  ') : ['  Nothing has to be bought.']),
    ...set(planReasonWords.totalWords(plan)),
    ...(plan.currency === undefined ? set(moneyWords.NO_CURRENCY) : []),
  ];
}

function noPlanLines(plan: Planned, name: Name): string[] {
  const { frontier, late, conditions } = plan;
  const why = set(planReasonWords.noPlanWords(plan, name));
  const most = frontier.at(-1);
  if (!most)
    return [
      ...why,
      ...set(
        late.length > 0
          ? 'Give more time with --within.'
          : 'See the offers with "fettle log JOB --kind repair-offered".',
      ),
    ];
  const unit = pressureUnit(plan.book);
  const weakest = most.chances.indexOf(Math.min(...most.chances));
  const condition = conditions[weakest];
  return [
    ...why,
    ...(condition
      ? set(
          `It is weakest at ${conditionWords(condition)}: ${pressureWords(most.pressures[weakest]!, unit)}, wanted ${wantedWords(condition.wanted)}.`,
        )
      : []),
    ...set(
      'Ask for other offers, accept a lower --confidence, or see with --measure what measuring would bring.',
    ),
  ];
}

function pressureLines(plan: Planned): string[] {
  if (plan.conditions.length === 0)
    return [
      ...heading('Pressure'),
      ...set(
        plan.dryBecause
          ? `Not looked at: ${plan.dryBecause.message}`
          : 'The sheet wants no pressure, so the plan goes by verdicts alone.',
      ),
    ];
  if (plan.asNow.pressures.length === 0)
    return [...heading('Pressure'), ...set(`Not predicted: ${plan.dryBecause?.message ?? 'no circuit.'}`)];
  const unit = pressureUnit(plan.book);
  const shown = plan.best ?? plan.frontier.at(-1);
  return [
    ...heading('Gauge pressure'),
    ...table(
      [
        [
          '',
          'the sheet wants',
          'as measured',
          ...(shown ? [plan.best ? 'with the plan' : 'with the surest', 'chance'] : []),
        ],
        ...plan.conditions.map((condition, i) => [
          conditionWords(condition),
          wantedWords(condition.wanted),
          pressureWords(plan.asNow.pressures[i]!, unit),
          ...(shown ? [pressureWords(shown.pressures[i]!, unit), chanceWords(shown.chances[i]!)] : []),
        ]),
      ],
      '  ',
    ),
  ];
}

function whyLines(plan: Planned, name: Name): string[] {
  if (plan.chosen.length === 0) return [];
  const unit = pressureUnit(plan.book);
  return [
    ...heading('Why each is in, and what it brings'),
    ...plan.chosen.flatMap((chosen) => [
      `  ${chosen.offer.body.name} (${money(chosen.offer.body.price, plan.currency)})`,
      ...[
        ...planReasonWords.reasonWords(chosen, name),
        ...planReasonWords.gainWords(plan, chosen, unit),
        ...planReasonWords.wearWords(chosen),
      ].flatMap((reason) => set(reason, '    ')),
    ]),
  ];
}

function leftOutLines(plan: Planned, name: Name): string[] {
  if (plan.leftOut.length === 0 && !plan.next) return [];
  return [
    ...heading('What was left out'),
    ...plan.leftOut.flatMap((one) => [
      `  ${one.offer.body.name} (${money(one.offer.body.price, plan.currency)})`,
      ...set(planReasonWords.leftOutWords(one, plan, name), '    '),
    ]),
    ...set(planReasonWords.nextPlanWords(plan, name)),
  ];
}

function openLines(plan: Planned): string[] {
  const open = planReasonWords.openWords(plan);
  return [
    ...(open.length > 0 ? [...heading('Left open'), ...open.flatMap((one) => set(one))] : []),
    ...(plan.refused.length > 0
      ? [
          ...heading('Offers that cannot be reckoned with'),
          ...plan.refused.flatMap(({ offer, issues }) => set(`${offer.name}: ${issues[0]?.message ?? ''}`)),
        ]
      : []),
  ];
}

const restsOn = (plan: Planned, hint: boolean): string[] => [
  ...heading('What this rests on'),
  ...planReasonWords.planGrounds(plan).flatMap((ground) => set(ground)),
  ...set(
    `Its working: fettle why JOB plan.${hint ? ' What measuring better could save: fettle plan JOB --measure.' : ''}`,
  ),
];

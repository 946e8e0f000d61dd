import type {
  Assessed,
  Book,
  Chosen,
  LeftOut,
  MeasuringMove,
  MostDoubt,
  PlanSet,
  RepairPlan,
  Requirement,
} from '@fettle/book';
import { placeText } from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { costFrontierText } from '@fettle/draw';
import { moveWords, nameOf } from './judgement.ts';
import { pressureUnit, pressureWords, wantedWords } from './pressure.ts';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 108;

/** A sum without a sign of currency: the job has one money and does not say which. */
export const money = (sum: number): string => (Number.isInteger(sum) ? String(sum) : sum.toFixed(2));

/** `72 %`; near the ends one figure more, and never a certainty that is none. */
export function chanceWords(chance: number): string {
  if (chance > 0.999) return 'over 99.9 %';
  if (chance < 0.001) return 'under 0.1 %';
  return `${(chance * 100).toFixed(chance > 0.95 || chance < 0.05 ? 1 : 0)} %`;
}

export function daysWords(days: number): string {
  if (days === 0) return 'at once';
  const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
  return days % 7 === 0 ? count(days / 7, 'week') : count(days, 'day');
}

const verdictWords = ({ characteristic, place }: Assessed): string => {
  const at = placeText(place);
  return at === '' ? characteristic.name : `${characteristic.name} ${at}`;
};

const listed = (requirements: readonly Requirement[]): string =>
  requirements.map(({ judgement }) => verdictWords(judgement)).join('; ');

/** Long words under one another, indented. */
const set = (text: string, indent = '  '): string[] =>
  wrapped(text, WIDTH - indent.length, '  ').map((line) => indent + line);

/** A plan in full, for a person. */
export function planLines(
  book: Book,
  plan: RepairPlan,
  moves: readonly MeasuringMove[] | undefined,
): string[] {
  const name = (id: string): string => plan.offers.find((one) => one.id === id)?.body.name ?? id;
  return [
    ...set(titleWords(book, plan), ''),
    ...bestLines(book, plan, name),
    ...pressureLines(book, plan),
    ...whyLines(book, plan, name),
    ...leftOutLines(plan, name),
    ...frontierLines(plan, name),
    ...(moves ? moveLines(book, plan, moves, name) : []),
    ...openLines(plan),
    ...restsOn(plan, moves === undefined),
  ];
}

function titleWords(book: Book, plan: RepairPlan): string {
  const grade =
    plan.grade === undefined ? '' : `, ${book.sheet?.oil?.grades[plan.grade]?.name ?? plan.grade}`;
  return `Repair plan${grade}: ${plan.offers.length} offers, to be ${chanceWords(plan.confidence)} sure of every pressure the sheet wants`;
}

type Name = (id: string) => string;

function bestLines(book: Book, plan: RepairPlan, name: Name): string[] {
  const { best, cap, days, late } = plan;
  if (!best) return [...heading('No plan'), ...noPlanLines(book, plan, name)];
  const rows = plan.chosen.map(({ offer, ready }) => [
    offer.body.name,
    money(offer.body.price),
    offer.body.trust === 'assumed' ? 'price assumed' : '',
    ready === 0 ? 'at once' : `there after ${daysWords(ready)}`,
  ]);
  const within =
    cap === undefined
      ? ''
      : best.price <= cap
        ? `, ${money(cap - best.price)} under the cap of ${money(cap)}`
        : `, ${money(best.price - cap)} OVER the cap of ${money(cap)}: no cheaper set does it`;
  const time = days === undefined ? '' : ` of ${daysWords(days)}`;
  return [
    ...heading(`The cheapest plan: ${money(best.price)}`),
    ...(rows.length > 0 ? table(rows, '  ') : ['  Nothing has to be bought.']),
    ...set(
      `Together ${money(best.price)}${within}; ${best.days === 0 ? 'all is there at once' : `all is there after ${daysWords(best.days)}`}${time}${plan.conditions.length > 0 ? `; every pressure as wanted: ${chanceWords(best.chance)}` : ''}.`,
    ),
    ...(late.length > 0 ? set(`Not in time: ${listed(late)}.`) : []),
  ];
}

function noPlanLines(
  book: Book,
  { frontier, late, days, confidence, conditions }: RepairPlan,
  name: Name,
): string[] {
  if (late.length > 0 && days !== undefined)
    return set(
      `Within ${daysWords(days)} nothing on offer settles: ${listed(late)}. Give more time with --within.`,
    );
  const most = frontier.at(-1);
  if (!most)
    return set(
      'What is out cannot all be settled together: what one needs, another excludes. See the offers with "fettle log JOB --kind repair-offered".',
    );
  const unit = pressureUnit(book);
  const weakest = most.chances.indexOf(Math.min(...most.chances));
  const condition = conditions[weakest];
  return [
    ...set(
      `No set of these offers is ${chanceWords(confidence)} sure. The surest is ${chanceWords(most.chance)}, for ${money(most.price)}: ${most.offers.map(name).join(', ') || 'nothing bought'}.`,
    ),
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

const conditionWords = ({ running }: RepairPlan['conditions'][number]): string =>
  `${printQuantity(running.speed, 'rpm', 0)} and ${printQuantity(running.temperature, 'degC', 0)}`;

function pressureLines(book: Book, plan: RepairPlan): string[] {
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
  const unit = pressureUnit(book);
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

function whyLines(book: Book, plan: RepairPlan, name: Name): string[] {
  if (plan.chosen.length === 0) return [];
  return [
    ...heading('Why each is in, and what it brings'),
    ...plan.chosen.flatMap((chosen) => [
      `  ${chosen.offer.body.name} (${money(chosen.offer.body.price)})`,
      ...reasonWords(chosen, name).flatMap((reason) => set(reason, '    ')),
      ...oilWords(book, plan, chosen).flatMap((line) => set(line, '    ')),
      ...(chosen.byWearOnly.length > 0
        ? set(
            `Caution: ${chosen.byWearOnly.join(', ')} will be in by the limits for wear and out by those for new parts.`,
            '    ',
          )
        : []),
    ]),
  ];
}

function reasonWords({ settles, forcedBy, neededBy }: Chosen, name: Name): string[] {
  const rest = settles.filter((one) => !forcedBy.includes(one));
  return [
    ...(forcedBy.length > 0 ? [`Forced by ${listed(forcedBy)}: nothing else on offer settles that.`] : []),
    ...(rest.length > 0 ? [`Settles ${listed(rest)}.`] : []),
    ...(neededBy.length > 0 ? [`Needed by ${neededBy.map(name).join(', ')}.`] : []),
    ...(settles.length === 0 && neededBy.length === 0 ? ['In for the pressure alone.'] : []),
  ];
}

function oilWords(book: Book, plan: RepairPlan, { alone, without }: Chosen): string[] {
  if (!alone || !without || !plan.best) return [];
  const first = gainWords(book, plan, plan.asNow.pressures, alone);
  const last = gainWords(book, plan, without.pressures, plan.best.pressures);
  return [
    `Alone it brings ${first}; on top of all the rest ${last}. The plan without it: ${chanceWords(without.chance)}.`,
  ];
}

function gainWords(
  book: Book,
  plan: RepairPlan,
  from: PlanSet['pressures'],
  to: PlanSet['pressures'],
): string {
  const unit = pressureUnit(book);
  const decimals = unit === 'bar' ? 2 : 1;
  return plan.conditions
    .map(({ running }, i) => {
      const gain = inUnit(to[i]!.value - from[i]!.value, unit);
      const words = gain.toFixed(decimals);
      const at = `at ${printQuantity(running.speed, 'rpm', 0)}`;
      return Number(words) === 0 ? `nothing ${at}` : `${gain > 0 ? '+' : ''}${words} ${unit} ${at}`;
    })
    .join(', ');
}

function leftOutLines(plan: RepairPlan, name: Name): string[] {
  if (plan.leftOut.length === 0 && !plan.next) return [];
  const { best, next } = plan;
  return [
    ...heading('What was left out'),
    ...plan.leftOut.flatMap((one) => [
      `  ${one.offer.body.name} (${money(one.offer.body.price)})`,
      ...set(leftOutWords(one, best!, name), '    '),
    ]),
    ...(next && best
      ? set(
          `The next cheapest plan that does without something of this one: ${money(next.price)} (${difference(best, next, name)}), ${chanceWords(next.chance)}, ${next.days === 0 ? 'there at once' : `there after ${daysWords(next.days)}`}.`,
        )
      : set('No other plan does: each part of it is the only way to something.')),
  ];
}

/** What one set has that the other has not. */
function difference(from: PlanSet, to: PlanSet, name: Name): string {
  const more = to.offers.filter((id) => !from.offers.includes(id)).map(name);
  const less = from.offers.filter((id) => !to.offers.includes(id)).map(name);
  return [
    ...(more.length > 0 ? [`with ${more.join(', ')}`] : []),
    ...(less.length > 0 ? [`without ${less.join(', ')}`] : []),
  ].join(', ');
}

function leftOutWords({ offer, why, against, cheapestWith }: LeftOut, best: PlanSet, name: Name): string {
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
    case 'not-needed': {
      const more = cheapestWith!.price - best.price;
      const change = cheapestWith!.chance - best.chance;
      const buys =
        change >= 0.001
          ? `and the chance rises to ${chanceWords(cheapestWith!.chance)}`
          : change <= -0.001
            ? `and the chance falls to ${chanceWords(cheapestWith!.chance)}`
            : 'and buys nothing in chance';
      return `Not needed: the cheapest plan with it costs ${money(cheapestWith!.price)}, ${more > 0 ? `${money(more)} more` : 'as much'}, ${buys}.`;
    }
  }
}

/** `Main journal 3, Rod journal 2 force the grind; Main bearing clearance 3 forces the shells` */
function againstWords(against: LeftOut['against'], name: Name): string {
  const forced = new Map<string, Requirement[]>();
  for (const { requirement, offers } of against) {
    const what = offers.map(name).join(' or ');
    forced.set(what, [...(forced.get(what) ?? []), requirement]);
  }
  return [...forced]
    .map(
      ([what, by]) =>
        `${by.map(({ judgement }) => verdictWords(judgement)).join(', ')} ${by.length === 1 ? 'forces' : 'force'} ${what}`,
    )
    .join('; ');
}

function frontierLines(plan: RepairPlan, name: Name): string[] {
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

function moveLines(book: Book, plan: RepairPlan, moves: readonly MeasuringMove[], name: Name): string[] {
  return [
    ...heading('Measuring before buying'),
    ...(moves.length === 0
      ? set(
          'No reading that is still in doubt decides between two plans: measuring better saves nothing here.',
        )
      : moves.flatMap((move) => moveWordsOf(book, plan, move, name))),
  ];
}

function moveWordsOf(book: Book, plan: RepairPlan, move: MeasuringMove, name: Name): string[] {
  if (move.about === 'verdict')
    return [
      ...set(
        `${verdictWords(move.judgement)} [${nameOf(move.judgement)}]: cannot tell, in with ${chanceWords(move.chanceIn)}. Left alone in this plan; if it is out, ${money(move.extra)} more. Measuring it before buying costs little and saves ${money(Math.round(move.saving))} on average against buying for safety.`,
      ),
      ...(move.next ? set(moveWords(move.judgement, move.next), '    ') : []),
    ];
  const { cheaper, less, saving, most } = move;
  const condition = plan.conditions[move.condition]!;
  const unit = pressureUnit(book);
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

function openLines(plan: RepairPlan): string[] {
  const { unoffered, refused } = plan;
  return [
    ...(unoffered.length > 0
      ? [...heading('Out, and no offer for this yet'), ...set(`${unoffered.map(verdictWords).join('; ')}.`)]
      : []),
    ...(refused.length > 0
      ? [
          ...heading('Offers that cannot be reckoned with'),
          ...refused.flatMap(({ offer, issues }) => set(`${offer.name}: ${issues[0]?.message ?? ''}`)),
        ]
      : []),
  ];
}

function restsOn(plan: RepairPlan, hint: boolean): string[] {
  return [
    ...heading('What this rests on'),
    ...set(
      'The search is exact over the offers on record. An offer cures what it says it does, and is proven only when it is measured in place. A restored clearance is taken anywhere within its limits for new parts unless its doubt was said.',
    ),
    ...(plan.conditions.length > 0
      ? set(
          'The chance is first-order, by the doubt of readings and offers alone. The circuit’s own constants (discharge coefficients, eccentricities, film temperatures, leak paths) are assumed and carry no doubt here, so it says more than is known: a real gauge outranks it.',
        )
      : []),
    ...(hint ? set('What measuring better could save: fettle plan JOB --measure.') : []),
  ];
}

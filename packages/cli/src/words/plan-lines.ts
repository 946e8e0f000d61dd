import {
  type Assessed,
  type Chosen,
  type LeftOut,
  type MeasuringMove,
  type PlanSet,
  placeText,
  pressureUnit,
  pressureWords,
  type Requirement,
} from '@fettle/book';
import { inUnit, printQuantity } from '@fettle/core';
import { frontierLines, moveLines } from './plan-money-lines.ts';
import {
  chanceWords,
  conditionWords,
  daysWords,
  difference,
  listed,
  money,
  type Name,
  type Planned,
  set,
  verdictWords,
} from './plan-words.ts';
import { wantedWords } from './pressure.ts';
import { heading, table } from './table.ts';

/** A plan in full, for a person. */
export function planLines(plan: Planned, moves: readonly MeasuringMove[] | undefined): string[] {
  const name = (id: string): string => plan.offers.find((one) => one.id === id)?.body.name ?? id;
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
  const { best, cap, days, late } = plan;
  if (!best) return [...heading('No plan'), ...noPlanLines(plan, name)];
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

function noPlanLines(plan: Planned, name: Name): string[] {
  const { frontier, late, days, confidence, conditions } = plan;
  if (late.length > 0 && days !== undefined)
    return set(
      `Within ${daysWords(days)} nothing on offer settles: ${listed(late)}. Give more time with --within.`,
    );
  const most = frontier.at(-1);
  if (!most)
    return set(
      'What is out cannot all be settled together: what one needs, another excludes. See the offers with "fettle log JOB --kind repair-offered".',
    );
  const unit = pressureUnit(plan.book);
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
  return [
    ...heading('Why each is in, and what it brings'),
    ...plan.chosen.flatMap((chosen) => [
      `  ${chosen.offer.body.name} (${money(chosen.offer.body.price)})`,
      ...reasonWords(chosen, name).flatMap((reason) => set(reason, '    ')),
      ...oilWords(plan, chosen).flatMap((line) => set(line, '    ')),
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

function oilWords(plan: Planned, { alone, without }: Chosen): string[] {
  if (!alone || !without || !plan.best) return [];
  const first = gainWords(plan, plan.asNow.pressures, alone);
  const last = gainWords(plan, without.pressures, plan.best.pressures);
  return [
    `Alone it brings ${first}; on top of all the rest ${last}. The plan without it: ${chanceWords(without.chance)}.`,
  ];
}

function gainWords(plan: Planned, from: PlanSet['pressures'], to: PlanSet['pressures']): string {
  const unit = pressureUnit(plan.book);
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

function leftOutLines(plan: Planned, name: Name): string[] {
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

function openLines(plan: Planned): string[] {
  const { unoffered, unread, refused } = plan;
  return [
    ...(unoffered.length > 0
      ? [...heading('Out, and no offer for this yet'), ...set(`${unoffered.map(verdictWords).join('; ')}.`)]
      : []),
    ...(unread.length > 0
      ? [
          ...heading('Not read yet'),
          ...set(
            `Were it out, something on offer would settle it, and the plan may change: ${unreadWords(unread)}.`,
          ),
        ]
      : []),
    ...(refused.length > 0
      ? [
          ...heading('Offers that cannot be reckoned with'),
          ...refused.flatMap(({ offer, issues }) => set(`${offer.name}: ${issues[0]?.message ?? ''}`)),
        ]
      : []),
  ];
}

/** Places of one characteristic together. */
function unreadWords(unread: readonly Assessed[]): string {
  const places = new Map<string, string[]>();
  for (const { characteristic, place } of unread)
    places.set(characteristic.name, [...(places.get(characteristic.name) ?? []), placeText(place)]);
  return [...places].map(([name, at]) => `${name} ${at.join(' ')}`.trimEnd()).join('; ');
}

function restsOn(plan: Planned, hint: boolean): string[] {
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

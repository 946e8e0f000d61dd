import { expanded, inUnit, standardUncertainty, type Uncertain } from '@fettle/core';
import type { Book } from '../fold/book.ts';
import { doubtCauses } from '../oil/doubt-causes.ts';
import type { Offer } from '../plan/offers.ts';
import type { Planning } from '../plan/planning.ts';
import type { Block } from './block.ts';
import { entriesWords } from './entry.ts';
import { chance, currencyOf, money } from './money.ts';
import { causeWords } from './narrowing.ts';
import { conditionWords, offerNames, type PlanTold, planGrounds, verdictList } from './plan-reasons.ts';
import { pressureDecimals, pressureUnit, pressureWords, wantedWords } from './pressure.ts';
import { sourceWords } from './source.ts';

/** A plan with all that its working is told from. */
export type PlanWorked = PlanTold & Pick<Planning, 'requirements'>;

/** So many causes of a pressure's doubt are told. */
const CAUSES = 3;

/** Where a plan comes from: method and source, what must be settled, what is on offer, the chance, what is assumed. */
export function planWorking(book: Book, plan: PlanWorked): Block[] {
  return [method(plan), required(book, plan), offered(book, plan), ...pressured(book, plan)];
}

function method({ confidence, best, solved, conditions }: PlanWorked): Block {
  return {
    title: 'How the plan is found',
    lines: [
      `Of all sets of offers that settle every verdict which any of them settles, hold what each needs and leave out what it excludes, the cheapest whose chance is at least ${chance(confidence)}. Every set is looked at or ruled out by a bound: none that is cheaper does.`,
      'Price = sum of the prices of what is taken.',
      ...(conditions.length > 0
        ? [
            `Chance = P(every pressure within its limits at once) = ∫ Π [Φ((b_i − m_i(y))/s_i) − Φ((a_i − m_i(y))/s_i)] dy: pressures normally distributed, with what they share in common; m and s by the covariances. Source: ${sourceWords('genz-1992')}.`,
            `Each pressure from the solved circuit with the clearances as measured, but for those that an offer taken restores; ${solved} states of the oil were solved. Laws and sources: fettle calc oil-network.`,
          ]
        : []),
    ],
    notes: planGrounds({ conditions }).concat(
      best ? [] : ['No set is sure enough: the working is that of the surest.'],
    ),
  };
}

function required(book: Book, plan: PlanWorked): Block {
  const name = offerNames(plan);
  return {
    title: 'What has to be settled, and by which readings',
    lines:
      plan.requirements.length === 0
        ? ['No verdict is out that any offer settles: only the pressures count.']
        : [
            'Each is out. One offer of every group named has to be taken; “and” joins the groups of several places.',
          ],
    ...(plan.requirements.length > 0 && {
      table: {
        head: ['verdict', 'settled by', 'entered'],
        rows: plan.requirements.map(({ judgement, curedBy }) => [
          verdictList([judgement]),
          curedBy.map((ids) => ids.map(name).join(' or ')).join(' and '),
          entriesWords(book, judgement.entries),
        ]),
      },
    }),
    notes: ['The working of one verdict: fettle why JOB CHARACTERISTIC@PLACE.'],
  };
}

function offered(book: Book, { offers, best }: PlanWorked): Block {
  return {
    title: 'What is on offer',
    lines: ['A later word on the same offer counts in place of an earlier one.'],
    table: {
      head: ['', 'offer', 'price', 'trust', 'entered'],
      rows: offers.map((offer) => [
        best?.offers.includes(offer.id) ? 'taken' : '',
        offer.body.name,
        money(offer.body.price, currencyOf(book)),
        offer.body.trust,
        entriesWords(book, [offer.entry]),
      ]),
    },
    notes: offers.map((offer) => `${offer.body.name}: ${broughtWords(book, offer)}.`),
  };
}

/** `Pump end clearance 0.0020in ±0.0005in; within the limits for new parts: Pump gear backlash` */
function broughtWords(book: Book, { body }: Offer): string {
  const stated: string[] = [];
  const within = new Map<string, string[]>();
  for (const one of body.restores) {
    const named = book.characteristics.get(one.characteristic)?.name ?? one.characteristic;
    const at = Object.values(one.at ?? {}).join(' ');
    const what = `${named}${at === '' ? '' : ` ${at}`}${one.size === undefined ? '' : ` (size ${one.size})`}`;
    if (one.value !== undefined) {
      stated.push(`${what} ${one.value}${one.doubt === undefined ? '' : ` ±${one.doubt}`}`);
      continue;
    }
    const by = one.judged_by === 'wear' ? 'within the limits for wear' : 'within the limits for new parts';
    within.set(by, [...(within.get(by) ?? []), what]);
  }
  const grade = body.oil === undefined ? [] : [book.sheet?.oil?.grades[body.oil]?.name ?? body.oil];
  const limited = [...within].map(([by, what]) => `${by}: ${what.join('; ')}`);
  return [...stated, ...limited, ...body.repairs, ...grade].join('; ') || 'nothing that is measured';
}

function pressured(book: Book, plan: PlanWorked): Block[] {
  const shown = plan.best ?? plan.frontier.at(-1);
  const unit = pressureUnit(book);
  if (!shown || plan.conditions.length === 0 || shown.pressures.length === 0) return [];
  const decimals = pressureDecimals(unit) + 1;
  return [
    {
      title: plan.best ? 'The pressures with the plan' : 'The pressures with the surest set',
      lines: ['Standard uncertainty u of each, and its distance from the nearer limit in u.'],
      table: {
        head: ['at', 'wanted', 'pressure', 'u', 'distance', 'chance alone'],
        rows: plan.conditions.map((condition, i) => {
          const q = shown.pressures[i]!;
          const u = standardUncertainty(q);
          const { lower, upper } = condition.wanted;
          const near = Math.min(
            lower === undefined ? Infinity : q.value - lower,
            upper === undefined ? Infinity : upper - q.value,
          );
          return [
            conditionWords(condition),
            wantedWords(condition.wanted),
            pressureWords(q, unit),
            `${inUnit(u, unit).toFixed(decimals)} ${unit}`,
            u > 0 ? `${(near / u).toFixed(1)} u` : 'no doubt',
            chance(shown.chances[i]!),
          ];
        }),
      },
      notes: [
        ...plan.conditions.map((condition, i) =>
          doubtWords(book, conditionWords(condition), shown.pressures[i]!),
        ),
        `All at once ${chance(shown.chance)}: what one reading gets wrong moves every pressure, so the chances do not multiply.`,
        `± is ${expanded(shown.pressures[0]!).k.toFixed(2)} u. First order in every reading and offer.`,
        ...(plan.chanceWithModel === undefined
          ? []
          : [
              `With the model’s own constants doubted as well ${chance(plan.chanceWithModel)}: guesses, no source.`,
            ]),
      ],
    },
  ];
}

/** Where most of one pressure's variance comes from. */
function doubtWords(book: Book, at: string, q: Uncertain): string {
  const causes = doubtCauses(book, q)
    .slice(0, CAUSES)
    .filter(({ share }) => share >= 0.005);
  return causes.length === 0
    ? `At ${at} nothing leaves a doubt.`
    : `Its variance at ${at}: ${causes.map((one) => `${Math.round(one.share * 100)} % ${causeWords(one)}`).join('; ')}.`;
}

import { failed, type Issue, type Outcome, ok, parseQuantity, type Uncertain } from '@fettle/core';
import type { Assessed, Assessment } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import { wantedPressure } from '../oil/pressure-limit.ts';
import { orderedSince, timeThere } from '../timeline/time-there.ts';
import { finishDays } from './lead-time.ts';
import { type Offer, type OfferBody, offersOf } from './offers.ts';
import { type Condition, OilChances } from './oil-chances.ts';
import { type OilModel, oilModel } from './oil-effects.ts';
import { combinations, idsIn, type OfferBits, offerBits, requirementBits } from './plan-problem.ts';
import { type Requirement, requirementOf } from './requirements.ts';
import { MOST_CHOICES, type Problem } from './search.ts';

export interface PlanWishes {
  /** Least probability that every pressure wanted is met, from 0.5 up to under 1. */
  readonly confidence: number;
  /** Unix time [ms], for the job's date and what is on its way. */
  readonly now: number;
  /** Days there are; until the job's date when absent, and no limit where that does not read or is past. */
  readonly days?: number;
  /** Another grade of the sheet than its fill. */
  readonly grade?: string;
}

/** Some of the offers, what they cost together and what they bring. */
export interface PlanSet {
  readonly offers: readonly string[];
  readonly price: number;
  readonly days: number;
  /** That every pressure wanted is met; 1 where none is. */
  readonly chance: number;
  /** One a condition. */
  readonly pressures: readonly Uncertain[];
  readonly chances: readonly number[];
}

/** All that a plan is worked out from: the offers as bits, what they must settle, and the chance they give. */
export interface Planning {
  readonly book: Book;
  readonly confidence: number;
  readonly grade: string | undefined;
  readonly conditions: readonly Condition[];
  readonly offers: readonly Offer[];
  readonly refused: readonly { readonly offer: OfferBody; readonly issues: readonly Issue[] }[];
  readonly requirements: readonly Requirement[];
  /** Out, with nothing on offer that would settle it. */
  readonly unoffered: readonly Assessed[];
  /** Cannot be told, with offers that would settle it. */
  readonly undecided: readonly Requirement[];
  /** Not read yet, with offers that would settle it were it out. */
  readonly unread: readonly Assessed[];
  readonly days: number | undefined;
  /** Days since the job's date, when it is past. */
  readonly past: number | undefined;
  /** When each offer is there, in days. */
  readonly ready: ReadonlyMap<string, number>;
  /** Bits of the offers that are not there in time. */
  readonly tooLate: number;
  readonly bits: OfferBits;
  readonly problem: Problem;
  /** Absent where no pressure is wanted or none can be predicted. */
  readonly chances: OilChances | undefined;
  readonly dryBecause: Issue | undefined;
  readonly asSet: (taken: number) => PlanSet;
}

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code: `plan/${code}`,
  at: '',
  got,
  wanted,
  message,
});

/** Reads offers, verdicts and circuit into one problem; no pressure is solved yet. */
export function planningOf(book: Book, assessed: Assessment, wishes: PlanWishes): Outcome<Planning> {
  const { confidence } = wishes;
  const { offers, refused } = offersOf(book);
  const refusal = refusalOf(confidence, offers.length);
  if (refusal) return failed(refusal);
  const grade = wishes.grade ?? book.sheet?.oil?.fill;
  const conditions = conditionsWanted(book);
  const model = grade === undefined ? undefined : oilModel(book, assessed.reckoning, offers, grade);
  if (wishes.grade !== undefined && model && !model.ok) return model;
  const bits = offerBits(offers, model?.ok ? model.value : undefined);
  const oil = model?.ok && conditions.length > 0 ? model.value : undefined;
  const touching = (oil?.effects ?? []).reduce((mask, { offer }) => mask | (1 << bits.bit.get(offer.id)!), 0);
  if (combinations(bits, touching, MOST_OIL_SETS) >= MOST_OIL_SETS)
    return failed(tooManySets(oil!.effects.length));
  const chances = oil && chancesOf(oil, conditions, bits);
  const complete = offers.filter((_, i) => !(bits.incomplete & (1 << i)));
  const out = assessed.judgements.filter(({ status }) => status === 'out');
  const requirements = out.flatMap((judgement) => requirementOf(judgement, complete) ?? []);
  const ready = finishDays(
    offers.map(({ id, days, body }) => ({
      id,
      days: daysAhead(book, id, days, wishes.now),
      needs: body.needs,
    })),
  );
  const { days, past } = timeThere(book, wishes.now, wishes.days);
  const tooLate = offers.reduce(
    (mask, { id }, i) => (days !== undefined && ready.get(id)! > days ? mask | (1 << i) : mask),
    0,
  );
  const problem: Problem = {
    choices: bits.choices,
    requirements: requirementBits(requirements, bits),
    oil: touching,
    chance: (mask, atLeast) => chances?.chance(mask, atLeast) ?? 1,
    hopeful: (taken, open) => chances?.hopeful(taken, open) ?? true,
    banned: tooLate | bits.incomplete,
  };
  return ok({
    book,
    confidence,
    grade,
    conditions,
    offers,
    refused,
    requirements,
    unoffered: out.filter((judgement) => !requirements.some((one) => one.judgement === judgement)),
    undecided: assessed.judgements.flatMap((judgement) =>
      judgement.status === 'cannot-tell' ? (requirementOf(judgement, complete) ?? []) : [],
    ),
    unread: assessed.judgements.filter(
      (judgement) => judgement.status === 'missing' && requirementOf(judgement, complete),
    ),
    days,
    past,
    ready,
    tooLate,
    bits,
    problem,
    chances,
    dryBecause: model && !model.ok ? model.issues[0] : undefined,
    asSet: (taken) => {
      const ids = idsIn(taken, bits);
      return {
        offers: ids,
        price: ids.reduce((sum, id) => sum + offers[bits.bit.get(id)!]!.body.price, 0),
        days: Math.max(0, ...ids.map((id) => ready.get(id)!)),
        chance: problem.chance(taken & problem.oil),
        pressures: chances?.pressures(taken & problem.oil) ?? [],
        chances: chances?.chancesAlone(taken & problem.oil) ?? [],
      };
    },
  });
}

/** What is ordered has been on its way since it was; what is here takes no more time. */
function daysAhead(book: Book, id: string, days: number, now: number): number {
  const ordered = orderedSince(book, id, now);
  if (!ordered) return days;
  return ordered.here ? 0 : Math.max(0, days - ordered.gone);
}

/** Sets of offers that touch the oil; more would keep a person waiting for what could be a minute. */
const MOST_OIL_SETS = 20_000;

const tooManySets = (offers: number): Issue =>
  issue(
    'too-many-combinations',
    `${offers} offers that touch the oil, in ${MOST_OIL_SETS} combinations or more`,
    `fewer than ${MOST_OIL_SETS} combinations`,
    `The ${offers} offers that touch the oil can be combined in too many ways for an exact search. Strike those that are no longer meant, or say with --excludes which cannot be taken together.`,
  );

const chancesOf = (
  oil: OilModel,
  conditions: readonly Condition[],
  { bit, reaches }: OfferBits,
): OilChances =>
  new OilChances(
    oil,
    conditions,
    oil.effects.map(({ offer }) => bit.get(offer.id)!),
    reaches,
  );

function refusalOf(confidence: number, offers: number): Issue | undefined {
  if (!(confidence >= 0.5 && confidence < 1))
    return issue(
      'confidence',
      String(confidence),
      'from 0.5 up to, not with, 1',
      `A confidence of ${confidence} cannot be planned for. Give one from 0.5 up to 0.999.`,
    );
  if (offers === 0)
    return issue(
      'no-offers',
      'no repair on offer',
      'at least one offer with its price',
      'No repair is on offer that can be reckoned with, so nothing can be planned. Enter what things cost with "fettle offer".',
    );
  if (offers > MOST_CHOICES)
    return issue(
      'too-many-offers',
      `${offers} offers`,
      `up to ${MOST_CHOICES}`,
      `${offers} offers are more than the exact search takes (${MOST_CHOICES}). Strike those that are no longer meant.`,
    );
  return undefined;
}

/** Every pressure the sheet wants, at its own speed and temperature. */
function conditionsWanted(book: Book): Condition[] {
  return (book.sheet?.oil?.pressures ?? []).flatMap(({ speed, temperature }) => {
    const [fast, hot] = [parseQuantity(speed, 'speed'), parseQuantity(temperature, 'temperature')];
    if (!fast.ok || !hot.ok) return [];
    const running = { speed: fast.value.value, temperature: hot.value.value };
    const wanted = wantedPressure(book.sheet, running);
    return wanted && (wanted.lower !== undefined || wanted.upper !== undefined) ? [{ running, wanted }] : [];
  });
}

import { failed, type Issue, type Outcome, ok, parseQuantity, type Uncertain } from '@fettle/core';
import type { Assessed, Assessment } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import { wantedPressure } from '../oil/pressure-limit.ts';
import { daysOf, finishDays } from './lead-time.ts';
import { isCuredByWearOnly, type Offer, type OfferBody, offersOf } from './offers.ts';
import { type Condition, OilChances } from './oil-chances.ts';
import { oilModel } from './oil-effects.ts';
import { dry, idsIn, type OfferBits, offerBits, requirementBits } from './plan-problem.ts';
import { type Requirement, requirementOf } from './requirements.ts';
import { cheapestSet, completions, frontier, MOST_CHOICES, type Problem } from './search.ts';

export interface PlanWishes {
  /** Least probability that every pressure wanted is met, from 0.5 up to under 1. */
  readonly confidence: number;
  /** Days there are; what the job says when absent, and no limit where that does not read. */
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

export interface Chosen {
  readonly offer: Offer;
  /** Verdicts that it settles. */
  readonly settles: readonly Requirement[];
  /** Of these, those that nothing else on offer settles. */
  readonly forcedBy: readonly Requirement[];
  readonly neededBy: readonly string[];
  /** The gauge if this were done alone; absent where it does not touch the oil. */
  readonly alone?: readonly Uncertain[];
  /** The plan's pressures and chance were it left out, as far as the oil goes. */
  readonly without?: { readonly pressures: readonly Uncertain[]; readonly chance: number };
  readonly ready: number;
  /** What it leaves in by wear only. */
  readonly byWearOnly: readonly string[];
}

export interface LeftOut {
  readonly offer: Offer;
  readonly why:
    | 'needs-what-is-not-offered'
    | 'not-in-time'
    /** No set with it settles the verdicts: those named force others that exclude it. */
    | 'not-admissible'
    /** Sets with it settle the verdicts, and none reaches the pressures. */
    | 'short-of-pressure'
    | 'not-needed';
  readonly against: readonly { readonly requirement: Requirement; readonly offers: readonly string[] }[];
  /** The cheapest plan that takes it. */
  readonly cheapestWith?: PlanSet;
}

export interface RepairPlan {
  readonly confidence: number;
  readonly conditions: readonly Condition[];
  readonly grade: string | undefined;
  readonly offers: readonly Offer[];
  readonly refused: readonly { readonly offer: OfferBody; readonly issues: readonly Issue[] }[];
  readonly requirements: readonly Requirement[];
  /** Out, with nothing on offer that would settle it. */
  readonly unoffered: readonly Assessed[];
  /** Out, with offers of which none is there in time. */
  readonly late: readonly Requirement[];
  readonly asNow: PlanSet;
  readonly cap?: number;
  readonly days?: number;
  /** Reaches the confidence at the least price. */
  readonly best?: PlanSet;
  /** The cheapest plan that does without something of the best. */
  readonly next?: PlanSet;
  readonly chosen: readonly Chosen[];
  readonly leftOut: readonly LeftOut[];
  /** Sets that settle every verdict, chance rising with price. */
  readonly frontier: readonly PlanSet[];
  /** The same if pressure alone counted. */
  readonly pressureOnly: readonly PlanSet[];
  /** Why no pressure is predicted, where none is. */
  readonly dryBecause?: Issue;
  /** States of the oil that were solved. */
  readonly solved: number;
}

/** All that a plan is worked out from: for the plan itself and for what measuring better would save. */
export interface Planner {
  readonly book: Book;
  readonly bits: OfferBits;
  readonly problem: Problem;
  readonly chances: OilChances | undefined;
  readonly requirements: readonly Requirement[];
  readonly asSet: (taken: number) => PlanSet;
  readonly plan: RepairPlan;
}

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code: `plan/${code}`,
  at: '',
  got,
  wanted,
  message,
});

/**
 * The cheapest set of the offers on record that settles every verdict "out" which any of them settles, keeps what they
 * need and exclude, and meets the sheet's pressures with the confidence wished for.
 *
 * The chance is first-order: pressures normally distributed by the doubt of readings and offers, all conditions
 * together with what they share. The circuit's own assumed constants carry no doubt in it.
 */
export function repairPlan(book: Book, assessed: Assessment, wishes: PlanWishes): Outcome<Planner> {
  const { confidence } = wishes;
  if (!(confidence >= 0.5 && confidence < 1))
    return failed(
      issue(
        'confidence',
        String(confidence),
        'from 0.5 up to, not with, 1',
        `A confidence of ${confidence} cannot be planned for. Give one from 0.5 up to 0.999.`,
      ),
    );
  const { offers, refused } = offersOf(book);
  if (offers.length === 0)
    return failed(
      issue(
        'no-offers',
        'no repair on offer',
        'at least one offer with its price',
        'No repair is on offer that can be reckoned with, so nothing can be planned. Enter what things cost with "fettle offer".',
      ),
    );
  if (offers.length > MOST_CHOICES)
    return failed(
      issue(
        'too-many-offers',
        `${offers.length} offers`,
        `up to ${MOST_CHOICES}`,
        `${offers.length} offers are more than the exact search takes (${MOST_CHOICES}). Strike those that are no longer meant.`,
      ),
    );
  const fill = wishes.grade ?? book.sheet?.oil?.fill;
  const wanted = conditionsWanted(book);
  const model = fill === undefined ? undefined : oilModel(book, assessed.reckoning, offers, fill);
  if (wishes.grade !== undefined && model && !model.ok) return model;
  const bits = offerBits(offers, model?.ok ? model.value : undefined);
  const oil = model?.ok && wanted.length > 0 ? model.value : undefined;
  const chances =
    oil &&
    new OilChances(
      oil,
      wanted,
      oil.effects.map(({ offer }) => bits.bit.get(offer.id)!),
      bits.reaches,
    );
  const dryBecause = model && !model.ok ? model.issues[0] : undefined;
  const out = assessed.judgements.filter(({ status }) => status === 'out');
  const requirements = out.flatMap((judgement) => requirementOf(judgement, offers) ?? []);
  const ready = finishDays(offers.map(({ id, days, body }) => ({ id, days, needs: body.needs })));
  const days =
    wishes.days ?? (book.opened?.body.due === undefined ? undefined : daysOf(book.opened.body.due));
  const tooLate = offers.reduce(
    (mask, { id }, i) => (days !== undefined && ready.get(id)! > days ? mask | (1 << i) : mask),
    0,
  );
  const banned = tooLate | bits.incomplete;
  const problem: Problem = {
    choices: bits.choices,
    requirements: requirementBits(requirements, bits),
    oil: oil ? oil.effects.reduce((mask, { offer }) => mask | (1 << bits.bit.get(offer.id)!), 0) : 0,
    chance: (mask) => chances?.chance(mask) ?? 1,
    hopeful: (taken, open) => chances?.hopeful(taken, open) ?? true,
    banned,
  };
  const asSet = (taken: number): PlanSet => {
    const ids = idsIn(taken, bits);
    return {
      offers: ids,
      price: ids.reduce((sum, id) => sum + offers[bits.bit.get(id)!]!.body.price, 0),
      days: Math.max(0, ...ids.map((id) => ready.get(id)!)),
      chance: problem.chance(taken & problem.oil),
      pressures: chances?.pressures(taken & problem.oil) ?? [],
      chances: chances?.chancesAlone(taken & problem.oil) ?? [],
    };
  };
  const sets = completions(problem);
  const found = cheapestSet(problem, confidence, sets);
  const free: Problem = { ...problem, requirements: [] };
  const settled = completions(dry(problem))[0];
  const points = frontier(problem, settled, sets);
  const best = found && asSet(found.taken);
  const cap = book.opened?.body.spending_cap;
  const context: Context = { problem, bits, chances, requirements, ready, asSet, confidence, tooLate };
  const next = found && nextPlan(context, found.taken);
  const plan: RepairPlan = {
    confidence,
    conditions: wanted,
    grade: fill,
    offers,
    refused,
    requirements,
    unoffered: out.filter((judgement) => !requirements.some((one) => one.judgement === judgement)),
    late: requirements.filter(({ curedBy }) =>
      curedBy.some((ids) => ids.every((id) => banned & (1 << bits.bit.get(id)!))),
    ),
    asNow: asSet(0),
    ...(cap !== undefined && { cap }),
    ...(days !== undefined && { days }),
    ...(best && { best }),
    ...(next && { next }),
    chosen: found ? chosenOf(context, found.taken, book) : [],
    leftOut: found ? leftOutOf(context, found.taken) : [],
    frontier: points.map(({ taken }) => asSet(taken)),
    pressureOnly: chances ? frontier(free, { taken: 0, price: 0 }).map(({ taken }) => asSet(taken)) : [],
    ...(dryBecause && { dryBecause }),
    solved: chances?.solved ?? 0,
  };
  return ok({ book, bits, problem, chances, requirements, asSet, plan });
}

interface Context {
  readonly problem: Problem;
  readonly bits: OfferBits;
  readonly chances: OilChances | undefined;
  readonly requirements: readonly Requirement[];
  readonly ready: ReadonlyMap<string, number>;
  readonly asSet: (taken: number) => PlanSet;
  readonly confidence: number;
  readonly tooLate: number;
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

/** The cheapest plan that lacks at least one thing of this one. */
function nextPlan({ problem, confidence, asSet, bits }: Context, taken: number): PlanSet | undefined {
  const others = bits.offers.flatMap((_, i) => {
    if (!(taken & (1 << i))) return [];
    const without = cheapestSet({ ...problem, banned: (problem.banned ?? 0) | (1 << i) }, confidence);
    return without ? [without] : [];
  });
  const [cheapest] = others.sort((a, b) => a.price - b.price || b.chance - a.chance);
  return cheapest && asSet(cheapest.taken);
}

function chosenOf(context: Context, taken: number, book: Book): Chosen[] {
  const { bits, chances, requirements, ready, problem } = context;
  return bits.offers.flatMap((offer, i) => {
    if (!(taken & (1 << i))) return [];
    const settles = requirements.filter(({ curedBy }) => curedBy.some((ids) => ids.includes(offer.id)));
    const touchesOil = (problem.oil & (1 << i)) !== 0;
    return [
      {
        offer,
        settles,
        forcedBy: settles.filter(({ curedBy }) =>
          curedBy.some((ids) => ids.length === 1 && ids[0] === offer.id),
        ),
        neededBy: bits.offers.flatMap(({ id, body }, j) =>
          taken & (1 << j) && body.needs.includes(offer.id) ? [id] : [],
        ),
        ...(chances &&
          touchesOil && {
            alone: chances.pressures(1 << i),
            without: {
              pressures: chances.pressures(taken & problem.oil & ~(1 << i)),
              chance: problem.chance(taken & problem.oil & ~(1 << i)),
            },
          }),
        ready: ready.get(offer.id)!,
        byWearOnly: offer.body.restores.flatMap((one) => {
          const characteristic = book.characteristics.get(one.characteristic);
          return characteristic && isCuredByWearOnly(characteristic, one) ? [characteristic.name] : [];
        }),
      },
    ];
  });
}

function leftOutOf(context: Context, taken: number): LeftOut[] {
  const { bits, problem, confidence, asSet, tooLate } = context;
  return bits.offers.flatMap((offer, i): LeftOut[] => {
    const bit = 1 << i;
    if (taken & bit) return [];
    if (bits.incomplete & bit) return [{ offer, why: 'needs-what-is-not-offered', against: [] }];
    if (tooLate & bit) return [{ offer, why: 'not-in-time', against: [] }];
    const forced: Problem = { ...problem, requirements: [...problem.requirements, bit] };
    const found = cheapestSet(forced, confidence);
    if (found) return [{ offer, why: 'not-needed', against: [], cheapestWith: asSet(found.taken) }];
    if (completions(dry(forced)).length > 0) return [{ offer, why: 'short-of-pressure', against: [] }];
    return [{ offer, why: 'not-admissible', against: inTheWay(context, i) }];
  });
}

/** The verdicts that only offers settle which exclude this one, by themselves or through what they need. */
function inTheWay({ requirements, bits }: Context, i: number): LeftOut['against'] {
  const excludes = (id: string): boolean => {
    const own = bits.bit.get(id)!;
    return bits.choices.some(
      ({ excludes: against }, j) =>
        (j === own || bits.reaches(own, j)) &&
        bits.choices.some((_, k) => (k === i || bits.reaches(i, k)) && (against & (1 << k)) !== 0),
    );
  };
  return requirements.flatMap((requirement) => {
    const group = requirement.curedBy.find(
      (ids) => !ids.includes(bits.offers[i]!.id) && ids.every((id) => excludes(id)),
    );
    return group ? [{ requirement, offers: group }] : [];
  });
}

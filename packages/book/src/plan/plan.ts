import { type LeftOpen, leftOpen } from './left-open.ts';
import { dry } from './plan-problem.ts';
import { type Chosen, chosenOf, type LeftOut, leftOutOf, nextPlan } from './plan-reasons.ts';
import type { Planning, PlanSet } from './planning.ts';
import type { Requirement } from './requirements.ts';
import { cheapestSet, completions, frontier, type Problem } from './search.ts';

export interface RepairPlan {
  /** Out, with offers of which none is there in time. */
  readonly late: readonly Requirement[];
  readonly asNow: PlanSet;
  readonly cap?: number;
  /** Of every price, by ISO 4217; absent where the job names none. */
  readonly currency?: string;
  /** Reaches the confidence at the least price. */
  readonly best?: PlanSet;
  /**
   * That the best, or where none does the surest, meets every pressure when the model's own constants are doubted as
   * well. Absent where no pressure is wanted or predicted.
   */
  readonly chanceWithModel?: number;
  /** Cannot be told, with offers that would settle it, and left as it is by the best. The dearest to be wrong about first. */
  readonly left: readonly LeftOpen[];
  /** The cheapest plan that does without something of the best. */
  readonly next?: PlanSet;
  readonly chosen: readonly Chosen[];
  readonly leftOut: readonly LeftOut[];
  /** Sets that settle every verdict, chance rising with price. */
  readonly frontier: readonly PlanSet[];
  /** The same if pressure alone counted. */
  readonly pressureOnly: readonly PlanSet[];
  /** States of the oil that were solved. */
  readonly solved: number;
}

/**
 * The cheapest set of the offers on record that settles every verdict "out" which any of them settles, keeps what they
 * need and exclude, and meets the sheet's pressures with the confidence wished for.
 *
 * The chance is first-order: pressures normally distributed by the doubt of readings and offers, all conditions
 * together with what they share. The circuit's own assumed constants carry no doubt in it; `chanceWithModel` says what is
 * left of it when they do.
 *
 * @throws RangeError  when the network finds no balance with what is on offer
 */
export function repairPlan(planning: Planning): RepairPlan {
  const { problem, confidence, asSet, chances, requirements, bits, tooLate, book } = planning;
  const sets = completions(problem);
  const found = cheapestSet(problem, confidence, sets);
  const settled = completions(dry(problem))[0];
  const free: Problem = { ...problem, requirements: [] };
  const next = found && nextPlan(planning, found.taken);
  const { spending_cap: cap, currency } = book.opened?.body ?? {};
  const surest = frontier(problem, settled, sets);
  const shown = (found ?? surest.at(-1))?.taken;
  return {
    late: requirements.filter(({ curedBy }) =>
      curedBy.some((ids) => ids.every((id) => tooLate & (1 << bits.bit.get(id)!))),
    ),
    asNow: asSet(0),
    ...(cap !== undefined && { cap }),
    ...(currency !== undefined && { currency }),
    ...(found && { best: asSet(found.taken) }),
    ...(chances && shown !== undefined && { chanceWithModel: chances.chanceWithModel(shown & problem.oil) }),
    left: found ? leftOpen(planning, found.taken) : [],
    ...(next && { next }),
    chosen: found ? chosenOf(planning, found.taken) : [],
    leftOut: found ? leftOutOf(planning, found.taken) : [],
    frontier: surest.map(({ taken }) => asSet(taken)),
    pressureOnly: chances ? frontier(free, { taken: 0, price: 0 }).map(({ taken }) => asSet(taken)) : [],
    solved: chances?.solved ?? 0,
  };
}

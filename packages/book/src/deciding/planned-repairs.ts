import type { Issue } from '@fettle/core';
import type { Assessment } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import { repairPlan } from '../plan/plan.ts';
import { planningOf } from '../plan/planning.ts';

/** How sure the plan has to be of every pressure the sheet wants. */
const CONFIDENCE = 0.95;

export interface PlannedRepairs {
  readonly taken: readonly string[];
  /** Why there is no plan; absent where there is one, or nothing is on offer. */
  readonly because?: Issue;
}

/**
 * The repairs on offer that the cheapest adequate plan takes; none where there is no plan.
 * `now` is Unix time [ms]; `days` there are, until the job's date when absent.
 */
export function plannedRepairs(
  book: Book,
  assessed: Assessment,
  { now, days }: { readonly now: number; readonly days?: number | undefined },
): PlannedRepairs {
  if (book.offers.size === 0) return { taken: [] };
  try {
    const planning = planningOf(book, assessed, {
      confidence: CONFIDENCE,
      now,
      ...(days !== undefined && { days }),
    });
    if (!planning.ok) return { taken: [], because: planning.issues[0]! };
    const { best } = repairPlan(planning.value);
    if (best) return { taken: best.offers };
    return { taken: [], because: noPlan('no set of the repairs on offer settles everything in time') };
  } catch (error) {
    // A circuit may find no balance with clearances that nobody meant.
    if (!(error instanceof RangeError)) throw error;
    return { taken: [], because: noPlan(error.message) };
  }
}

const noPlan = (got: string): Issue => ({
  code: 'plan/none',
  at: '',
  got,
  wanted: 'a plan of repairs',
  message: `There is no plan of repairs to go by: ${got}. What was decided and wanted is reckoned with alone.`,
});

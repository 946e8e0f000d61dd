import { type InstrumentBudget, instrumentBudget } from '@fettle/core';
import type { Body, BudgetLine } from '../ledger/bodies.ts';
import { type Amount, amountOf, amountText } from './amount.ts';

/** A budget worked out line by line. */
export interface WorkedBudget extends InstrumentBudget {
  readonly lines: readonly BudgetLine[];
  readonly kind: Amount['kind'];
  /** The unit it is told in. */
  readonly unit: string;
  /** U as it comes out, in that unit. */
  readonly expanded: string;
}

/** The budget of these lines; undefined where one of them is no amount, or is of another kind than the rest. */
export function workedBudget(lines: readonly BudgetLine[], unit: string): WorkedBudget | undefined {
  const amounts = lines.map(({ amount }) => amountOf(amount));
  const [first] = amounts;
  if (!first || amounts.some((one) => one?.kind !== first.kind)) return undefined;
  const budget = instrumentBudget(
    lines.map(({ what, shape, divisor, share, dof }, i) => ({
      what,
      amount: amounts[i]!.value,
      shape,
      divisor,
      share,
      ...(dof !== undefined && { dof }),
    })),
  );
  return { ...budget, lines, kind: first.kind, unit, expanded: amountText(budget.U, first.kind, unit) };
}

/** The budget an instrument was declared with. */
export function budgetOf({ budget, uncertainty }: Body<'instrument-declared'>): WorkedBudget | undefined {
  const unit = amountOf(uncertainty.expanded)?.unit;
  return budget === undefined || unit === undefined ? undefined : workedBudget(budget, unit);
}

/** How far the U declared may differ from what its budget makes: three printed figures. */
const ROUNDING = 0.01;

/** Whether the U that judges is the one the budget makes. */
export function budgetAgrees(body: Body<'instrument-declared'>, worked: WorkedBudget): boolean {
  const declared = amountOf(body.uncertainty.expanded);
  const u = declared && declared.value / body.uncertainty.coverage;
  return declared?.kind === worked.kind && Math.abs((u ?? 0) / worked.u - 1) < ROUNDING;
}

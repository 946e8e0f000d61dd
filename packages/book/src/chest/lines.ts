import { LIMIT_DIVISOR } from '@fettle/core';
import type { BudgetLine } from '../ledger/bodies.ts';

export const PRACTICE = 'common practice, no source';
/** A figure that comes with the tool, or is taken as usual for it. */
export const STATED = `stated by its maker, else ${PRACTICE}`;

/** ISO names for what a budget line is: a limit nothing exceeds, a scale that moves in steps, a band at about 95 %. */
type More = Partial<Pick<BudgetLine, 'share' | 'of' | 'dof'>>;

/** A limit of error: as likely anywhere inside as anywhere else, and the same every time. @source jcgm-100 4.3.7 */
export const limit = (what: string, amount: string, source: string, more: More = {}): BudgetLine => ({
  what,
  amount,
  shape: 'rectangular',
  divisor: LIMIT_DIVISOR.rectangular,
  share: 'common',
  source,
  ...more,
});

/** A scale that moves in steps: half a step either way, another half each time. @source jcgm-100 F.2.2.1 */
export const step = (
  what: string,
  amount: string,
  source = 'JCGM 100, F.2.2.1: a step r gives r/√12',
): BudgetLine => ({
  what,
  amount,
  shape: 'rectangular',
  divisor: 2 * LIMIT_DIVISOR.rectangular,
  share: 'own',
  source,
});

/** A band that holds about 95 %: feel, seating, setting. */
export const band = (what: string, amount: string, source: string, more: More = {}): BudgetLine => ({
  what,
  amount,
  shape: 'normal',
  divisor: 2,
  share: 'own',
  source,
  ...more,
});

/** Half of what is said: a dial that is read between its lines. */
export function halfOf(said: string): string {
  const [, number = '0', unit = ''] = /^([\d.]+)\s*(.*)$/.exec(said.trim()) ?? [];
  return `${Number((Number(number) / 2).toPrecision(6))} ${unit}`;
}

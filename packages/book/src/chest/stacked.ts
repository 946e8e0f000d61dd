import {
  failed,
  issue,
  type LeafDoubt,
  type Outcome,
  ok,
  parseQuantity,
  printQuantity,
  stackDoubt,
} from '@fettle/core';

/** U of what lies between two leaves that were wiped, a film or a burr [m]. Common practice, no source. */
const BETWEEN_U = 2.5e-6;

/** More leaves than this in a stack bring more doubt than they are worth. */
export const MOST_STACKED = 4;

/** The doubt of leaves laid on one another, each as by itself; the film between them is assumed. */
export const stackedDoubt = (leaves: readonly LeafDoubt[]): LeafDoubt => stackDoubt(leaves, BETWEEN_U / 2);

/** Leaves as they were said, one or several laid together. */
export interface LeavesSaid {
  /** Thickness together, as a quantity. */
  readonly together: string;
  /** Each leaf with its unit; absent for a single one. */
  readonly stack?: readonly string[];
}

/**
 * Reads `0.012 in`, or leaves laid together: `0.012 + 0.010 in`, `12 thou + 10 thou`. A leaf without a unit has that of
 * the next one that has; the thickness together is given in the unit said last.
 *
 * @param at  the field, for an issue
 */
export function leavesSaid(text: string, at: string): Outcome<LeavesSaid> {
  const parts = text.split('+').map((part) => part.trim());
  if (parts.length === 1) return ok({ together: text });
  const wrong = (got: string, wanted: string, message: string): Outcome<never> =>
    failed(issue('feeler/stack', at, got, wanted, message));
  if (parts.some((part) => part === ''))
    return wrong(text, 'a leaf on both sides of each +', `"${text}" has a + without a leaf beside it.`);
  if (parts.length > MOST_STACKED)
    return wrong(
      `${parts.length} leaves`,
      `at most ${MOST_STACKED}`,
      `${parts.length} leaves laid together bring more doubt than they are worth. Take at most ${MOST_STACKED}.`,
    );
  const read: { text: string; metres: number; unit: string }[] = [];
  let unit = '';
  for (const part of [...parts].reverse()) {
    const whole = /[a-zµ"]/i.test(part) ? part : `${part} ${unit}`.trim();
    const quantity = parseQuantity(whole, 'length');
    if (!quantity.ok) return failed(...quantity.issues.map((one) => ({ ...one, at })));
    unit = quantity.value.unit;
    read.unshift({ text: whole, metres: quantity.value.value, unit });
  }
  const sum = read.reduce((metres, leaf) => metres + leaf.metres, 0);
  return ok({
    together: printQuantity(sum, read.at(-1)!.unit),
    stack: read.map((leaf) => leaf.text),
  });
}

import { failed, leafStacks, type Outcome, ok, parseQuantity, printQuantity } from '@fettle/core';
import type { Body } from '../ledger/bodies.ts';
import { amountOf, amountText } from './amount.ts';
import { MOST_STACKED, stackedDoubt } from './stacked.ts';

/** A stack of owned leaves near a gap, in the unit the gap was said in. */
export interface StackRow {
  /** `1.5 + 12 + 25`. */
  readonly leaves: string;
  readonly thickness: string;
  /** `±0.866 thou`; empty where the leaves' U is none of a length. */
  readonly doubt: string;
  readonly count: number;
  readonly metres: number;
}

/** The stacks of its leaves nearest to a gap no single leaf fills. */
export function stacksNear(
  { instrument, name, leaves, uncertainty }: Body<'instrument-declared'>,
  gap: string,
): Outcome<StackRow[]> {
  const wanted = parseQuantity(gap, 'length');
  if (!wanted.ok) return wanted;
  const owned = (leaves ?? []).flatMap((text) => {
    const read = parseQuantity(text, 'length');
    return read.ok ? [read.value.value] : [];
  });
  if (owned.length === 0)
    return failed({
      code: 'instrument/no-leaves',
      at: 'instrument',
      got: instrument,
      wanted: 'feeler leaves with their list',
      message: `${name} has no list of leaves. Declare it with the leaves it has.`,
    });
  const U = amountOf(uncertainty.expanded);
  const doubtOf = (metres: number, unit: string, count: number): string => {
    const u = metres / uncertainty.coverage;
    const share = uncertainty.common_share;
    const leaf = { common: u * Math.sqrt(share), own: u * Math.sqrt(1 - share) };
    const { common, own } = stackedDoubt(Array.from({ length: count }, () => leaf));
    return `±${amountText(2 * Math.hypot(common, own), 'length', unit)}`;
  };
  const { unit } = wanted.value;
  return ok(
    leafStacks(owned, wanted.value.value, MOST_STACKED).map((stack) => ({
      leaves: stack.leaves.map((leaf) => printQuantity(leaf, unit).replace(/ .*$/, '')).join(' + '),
      thickness: printQuantity(stack.thickness, unit),
      doubt: U?.kind === 'length' ? doubtOf(U.value, unit, stack.leaves.length) : '',
      count: stack.leaves.length,
      metres: stack.thickness,
    })),
  );
}

import { inUnit } from '@fettle/core';
import type { Stair } from '../oil/stair.ts';
import { pressureDecimals } from './pressure.ts';

/** How the loss was shared out, how sure the shares are, and what the printed figures are. */
export function sharesWords({ exact, orders, doubted, treads }: Stair, unit: string): string[] {
  const error = Math.max(...treads.map((tread) => tread.error));
  return [
    exact
      ? `All orders of the ${treads.length} repairs are counted.`
      : `${orders} orders were drawn; the standard error of a share is at most ${inUnit(error, unit).toFixed(pressureDecimals(unit) + 1)} ${unit}.`,
    'Printed figures are rounded so that they add up to the loss.',
    ...(doubted
      ? ['±: what the readings leave open, at about 95 %; treads share readings, so their bands go together.']
      : []),
  ];
}

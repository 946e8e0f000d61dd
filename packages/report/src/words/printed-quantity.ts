import { kindsOf } from '@fettle/core';
import { joined, unitSign } from './unit.ts';

/** The figures and the unit of a quantity as it was written; undefined for anything else. */
function written(text: string): { figures: string; sign: string } | undefined {
  const [, figures, unit] = /^\s*([-+−]?[\d.]+)\s*(\S.*?)\s*$/.exec(text) ?? [];
  if (figures === undefined || unit === undefined || kindsOf(unit).length === 0) return undefined;
  return { figures, sign: unitSign(unit) };
}

/** A quantity with its printed digits and its unit as a person writes it: `80 lbf.ft` is `80 lbf·ft`. */
export function printedQuantity(text: string): string {
  const quantity = written(text);
  return quantity ? joined(quantity.figures, quantity.sign) : text;
}

/** `80 to 85 lbf·ft`, `max 0.0040 in`, `min 2.4980 in`; empty for neither. */
export function rangeWords(lower: string | undefined, upper: string | undefined): string {
  if (lower !== undefined && upper !== undefined) {
    const [low, high] = [written(lower), written(upper)];
    return low && high && low.sign === high.sign
      ? `${low.figures} to ${printedQuantity(upper)}`
      : `${printedQuantity(lower)} to ${printedQuantity(upper)}`;
  }
  if (upper !== undefined) return `max ${printedQuantity(upper)}`;
  return lower === undefined ? '' : `min ${printedQuantity(lower)}`;
}

import { kindsOf, printQuantity } from '@fettle/core';

/** A quantity of the sheet with its printed digits and its unit as a person writes it: `80 lbf.ft` is `80 lbf·ft`. */
export function printedQuantity(text: string): string {
  const [, digits, unit] = /^\s*([-+−]?[\d.]+)\s*(\S.*?)\s*$/.exec(text) ?? [];
  if (digits === undefined || unit === undefined || kindsOf(unit).length === 0) return text;
  try {
    return printQuantity(0, unit, 0).replace(/^0/, digits);
  } catch {
    // A spelling that is read but is not the unit's own name: it stays as it stands.
    return text;
  }
}

/** `80 to 85 lbf·ft`, `max 0.0040 in`, `min 2.4980 in`; empty for neither. */
export function rangeWords(lower: string | undefined, upper: string | undefined): string {
  if (lower !== undefined && upper !== undefined) {
    const [low, high] = [printedQuantity(lower), printedQuantity(upper)];
    const [, digits, unit] = /^(\S+)\s+(\S+)$/.exec(low) ?? [];
    return unit !== undefined && high.endsWith(` ${unit}`) ? `${digits} to ${high}` : `${low} to ${high}`;
  }
  if (upper !== undefined) return `max ${printedQuantity(upper)}`;
  return lower === undefined ? '' : `min ${printedQuantity(lower)}`;
}

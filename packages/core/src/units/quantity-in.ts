import * as z from 'zod';
import { QUANTITY_KINDS, type QuantityKind } from './kinds.ts';
import { type Bounds, readQuantity } from './read-quantity.ts';

/** JSON Schema of one quantity: text with its unit, or a bare number in SI. */
export function quantitySchema(
  kind: QuantityKind,
  { min, above, max, below }: Bounds,
): Record<string, unknown> {
  const number = {
    type: 'number',
    ...(min !== undefined && { minimum: min }),
    ...(above !== undefined && { exclusiveMinimum: above }),
    ...(max !== undefined && { maximum: max }),
    ...(below !== undefined && { exclusiveMaximum: below }),
  };
  return { anyOf: [{ type: 'string' }, number], 'x-ucum': QUANTITY_KINDS[kind], 'x-kind': kind };
}

/**
 * A quantity inside a structure, as a zod schema: gives SI. A structure is JSON however it came,
 * so a bare number in it is SI; an issue keeps its code in `params`.
 */
export const quantityIn = (kind: QuantityKind, bounds: Bounds = { above: 0 }) =>
  z
    .unknown()
    .meta(quantitySchema(kind, bounds))
    .transform((raw, context): number => {
      const read = readQuantity(raw, kind, bounds, { bareNumbersAreSi: true });
      if (read.ok) return read.value;
      for (const issue of read.issues)
        context.issues.push({ code: 'custom', message: issue.message, input: raw, params: { issue } });
      return z.NEVER;
    });

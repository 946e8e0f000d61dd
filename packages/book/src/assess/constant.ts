import { parseQuantity, type QuantityKind } from '@fettle/core';

/** Kinds in the order in which a unit is looked for: a length before all, since most constants are. */
const KINDS: readonly QuantityKind[] = [
  'length',
  'force',
  'angle',
  'volume',
  'area',
  'pressure',
  'stiffness',
  'mass',
  'torque',
  'speed',
  'ratio',
];

/** A constant of a relation in SI; it carries its own unit, so its kind is whatever that unit's kind is. */
export function constantOf(text: string | undefined): number | undefined {
  if (text === undefined) return 0;
  for (const kind of KINDS) {
    const read = parseQuantity(text, kind);
    if (read.ok) return read.value.value;
  }
  return undefined;
}

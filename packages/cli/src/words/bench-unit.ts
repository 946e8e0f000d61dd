import {
  type Calculator,
  inUnit,
  kindsOf,
  parseQuantity,
  printQuantity,
  QUANTITY_KINDS,
  type QuantityKind,
} from '@fettle/core';

/** A unit for the bench where nobody said one of that kind, and from which size on [SI]. */
const USUAL: Readonly<Partial<Record<QuantityKind, readonly (readonly [unit: string, from: number])[]>>> = {
  length: [
    ['mm', 1e-4],
    ['um', 0],
  ],
  area: [['mm2', 0]],
  volume: [['cm3', 0]],
  angle: [['deg', 0]],
  speed: [['rpm', 0]],
  pressure: [
    ['MPa', 1e6],
    ['kPa', 0],
  ],
  force: [['N', 0]],
  torque: [['N.m', 0]],
  stiffness: [['N/mm', 0]],
  'dynamic-viscosity': [['mPa.s', 0]],
  'kinematic-viscosity': [['mm2/s', 0]],
  flow: [
    ['L/min', 1e-6],
    ['mL/s', 0],
  ],
  temperature: [['degC', Number.NEGATIVE_INFINITY]],
};

/** Units somebody asked in, by kind: the answer is best read in the same. */
export function benchUnits(
  calculator: Calculator,
  raw: Readonly<Record<string, unknown>>,
): ReadonlyMap<QuantityKind, string> {
  const units = new Map<QuantityKind, string>();
  for (const [key, said] of Object.entries(raw)) {
    const field = calculator.input[key];
    if (typeof said !== 'string' || !field) continue;
    const kinds: readonly QuantityKind[] =
      field.type === 'quantity' || field.type === 'quantities'
        ? [field.kind]
        : field.type === 'alike'
          ? kindsOf(said.replace(/^[\d.\s/+-]+/, ''))
          : [];
    for (const kind of kinds)
      for (const text of said.split(/[,;]/)) {
        const read = parseQuantity(text.trim(), kind);
        if (read.ok && kind !== 'ratio' && !units.has(kind)) units.set(kind, read.value.unit);
      }
  }
  return units;
}

const KINDS = Object.entries(QUANTITY_KINDS) as [QuantityKind, string][];

/** A result for a person, and beside it in SI where that is another number. */
export function valueCells(
  value: unknown,
  unit: string | undefined,
  bench: ReadonlyMap<QuantityKind, string>,
): [string, string] {
  if (typeof value !== 'number')
    return [typeof value === 'string' ? value : JSON.stringify(value), unit ?? ''];
  const plain = `${Number(value.toPrecision(7))}`;
  const kind = KINDS.find(([, si]) => si === unit)?.[0];
  if (kind === undefined || kind === 'ratio')
    return [`${plain}${unit && unit !== '1' ? ` ${unit}` : ''}`, ''];
  const usual = USUAL[kind]?.find(([, from]) => Math.abs(value) >= from)?.[0];
  const shown = bench.get(kind) ?? usual;
  if (shown === undefined || inUnit(value, shown) === value) return [`${plain} ${unit}`, ''];
  return [printQuantity(value, shown), `${plain} ${unit}`];
}

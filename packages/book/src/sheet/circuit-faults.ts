import { compiledNetwork, parseQuantity } from '@fettle/core';
import { issuesOf } from '../issues-of-zod.ts';
import { type Faults, listed } from './fault.ts';
import { axisValues } from './places.ts';
import {
  type Characteristic,
  type FromCharacteristic,
  fromCharacteristicSchema,
  type SpecSheet,
} from './sheet.ts';

type Path = readonly (string | number)[];

/** What the circuit takes from characteristics, and whether the network, everything as new, can be computed at all. */
export function circuitFaults(
  sheet: SpecSheet,
  byId: ReadonlyMap<string, Characteristic>,
  faults: Faults,
): void {
  const { oil } = sheet;
  if (!oil?.circuit) return;
  const before = faults.issues.length;
  for (const [i, element] of oil.circuit.elements.entries())
    parametersWithin(sheet, byId, element, ['oil', 'circuit', 'elements', i], faults);
  const grade = Object.hasOwn(oil.grades, oil.fill) ? oil.grades[oil.fill] : undefined;
  if (faults.issues.length > before || !grade) return;
  const network = compiledNetwork({
    ...oil.circuit,
    fluid: {
      ...(oil.circuit.fluid as object),
      kv40: grade.kv40,
      kv100: grade.kv100,
      density15: oil.density15,
    },
    elements: oil.circuit.elements.map((element) =>
      Object.fromEntries(Object.entries(element).map(([key, value]) => [key, asNew(byId, value)])),
    ),
  });
  if (!network.ok)
    for (const issue of network.issues)
      faults.issues.push({
        ...issue,
        at: `/oil/circuit${issue.at}`,
        message: `Oil circuit: ${issue.message}`,
      });
}

/** A parameter as new, in SI; one that is written down stays as it is. */
function asNew(byId: ReadonlyMap<string, Characteristic>, value: unknown): unknown {
  const from = fromCharacteristicSchema.safeParse(value);
  if (!from.success) return value;
  const kind = byId.get(from.data.from)?.kind;
  const nominal = kind === undefined || kind === 'seen' ? undefined : parseQuantity(from.data.nominal, kind);
  return nominal?.ok ? nominal.value.value * from.data.factor : value;
}

/** Looks for parameters taken from characteristics, however deep they lie in an element. */
function parametersWithin(
  sheet: SpecSheet,
  byId: ReadonlyMap<string, Characteristic>,
  value: unknown,
  path: Path,
  faults: Faults,
): void {
  if (typeof value !== 'object' || value === null) return;
  // An element itself runs from a node to a node; only inside it does `from` name a characteristic.
  const isElement = path.length === 4;
  if (!isElement && Object.hasOwn(value, 'from')) {
    const read = fromCharacteristicSchema.safeParse(value);
    if (read.success) parameterFaults(sheet, byId, read.data, path, faults);
    else
      for (const { code, at, got, wanted, message } of issuesOf(read.error, value, 'malformed'))
        faults.add(code, [...path, ...at.split('/').slice(1)], got, wanted, `Circuit: ${message}`);
    return;
  }
  for (const [key, inner] of Object.entries(value))
    parametersWithin(sheet, byId, inner, [...path, Array.isArray(value) ? Number(key) : key], faults);
}

/** Whether a parameter names a characteristic, and one value of it. */
export function parameterFaults(
  sheet: SpecSheet,
  byId: ReadonlyMap<string, Characteristic>,
  parameter: Pick<FromCharacteristic, 'from' | 'at' | 'reduce' | 'repaired'> & {
    nominal?: string | undefined;
  },
  path: Path,
  faults: Faults,
): void {
  const c = byId.get(parameter.from);
  if (!c || c.kind === 'seen') {
    faults.add(
      'unknown-characteristic',
      [...path, 'from'],
      parameter.from,
      'a measured characteristic of this sheet',
      `The circuit takes a value from "${parameter.from}", which is no measured characteristic of the sheet. Correct the id.`,
    );
    return;
  }
  const open = new Set(c.places);
  for (const [axis, value] of Object.entries(parameter.at ?? {})) {
    if (!open.delete(axis))
      faults.add(
        'unknown-axis',
        [...path, 'at', axis],
        axis,
        listed(c.places),
        `The circuit fixes the axis "${axis}" of ${c.id}, which has none such (${listed(c.places)}).`,
      );
    else if (!axisValues(sheet, c, axis).includes(value))
      faults.add(
        'unknown-value',
        [...path, 'at', axis],
        value,
        listed(axisValues(sheet, c, axis)),
        `The circuit takes ${c.id} at ${axis} "${value}", which it does not have. Its values: ${listed(axisValues(sheet, c, axis))}.`,
      );
  }
  const own =
    parameter.reduce === undefined ? (c.reduce?.over ?? []) : parameter.reduce === 'one' ? [] : [...open];
  const left = [...open].filter((axis) => !own.includes(axis));
  if (left.length > 0)
    faults.add(
      'axis-left-over',
      path,
      listed(left),
      'one value',
      `The circuit takes one value from ${c.id}, which has one for each ${left.join(' and ')}. Fix ${left.join(' and ')} by "at", or say "reduce": mean, worst or mean-cube.`,
    );
  faults.quantity(parameter.nominal, c.kind, [...path, 'nominal'], `Circuit, ${c.id}, nominal`);
  faults.quantity(parameter.repaired, c.kind, [...path, 'repaired'], `Circuit, ${c.id}, repaired`);
}

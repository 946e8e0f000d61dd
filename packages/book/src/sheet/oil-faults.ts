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

export function oilFaults(sheet: SpecSheet, byId: ReadonlyMap<string, Characteristic>, faults: Faults): void {
  const { oil } = sheet;
  if (!oil) return;
  const grades = Object.keys(oil.grades);
  if (!grades.includes(oil.fill))
    faults.add(
      'unknown-grade',
      ['oil', 'fill'],
      oil.fill,
      listed(grades),
      `The engine is filled with "${oil.fill}", which is none of the sheet's grades (${listed(grades)}). Name one of them.`,
    );
  for (const [name, grade] of Object.entries(oil.grades)) {
    const path = ['oil', 'grades', name];
    const [at40, at100] = (['kv40', 'kv100'] as const).map((key) =>
      faults.quantity(grade[key], 'kinematic-viscosity', [...path, key], `Oil ${name}, ${key}`),
    );
    if (at40 !== undefined && at100 !== undefined && !(at100 > 0 && at40 > at100))
      faults.add(
        'viscosities-crossed',
        path,
        `${grade.kv40} at 40 °C, ${grade.kv100} at 100 °C`,
        'thinner at 100 °C than at 40 °C',
        `Oil ${name} is not thinner at 100 °C (${grade.kv100}) than at 40 °C (${grade.kv40}). Exchange or correct them.`,
      );
  }
  faults.quantity(oil.density15, 'density', ['oil', 'density15'], 'Oil density at 15 °C');
  for (const key of ['cold', 'hot'] as const)
    faults.quantity(oil[key], 'temperature', ['oil', key], `Sump temperature meant by ${key}`);
  for (const [i, speed] of oil.speeds.entries())
    faults.quantity(speed, 'speed', ['oil', 'speeds', i], `Oil, speed ${i + 1}`);
  if (oil.speeds.length === 0)
    faults.add(
      'no-speeds',
      ['oil', 'speeds'],
      'an empty list',
      'at least the idle speed',
      'Give the crank speeds at which pressure is shown, the idle speed first.',
    );
  for (const [i, p] of oil.pressures.entries()) {
    const path = ['oil', 'pressures', i];
    const subject = `Oil pressure ${i + 1}`;
    faults.quantity(p.speed, 'speed', [...path, 'speed'], `${subject}, speed`);
    faults.quantity(p.temperature, 'temperature', [...path, 'temperature'], `${subject}, temperature`);
    const lower = faults.quantity(p.lower, 'pressure', [...path, 'lower'], `${subject}, lower`);
    const upper = faults.quantity(p.upper, 'pressure', [...path, 'upper'], `${subject}, upper`);
    if (lower !== undefined && upper !== undefined && lower > upper)
      faults.add(
        'limits-crossed',
        path,
        `lower ${p.lower}, upper ${p.upper}`,
        'lower at or under upper',
        `${subject}: the lower limit is above the upper one. Exchange or correct them.`,
      );
    if (p.lower === undefined && p.upper === undefined)
      faults.add(
        'limits-empty',
        path,
        'no limit',
        'a lower or an upper limit',
        `${subject} has no limit. Give one, or remove it.`,
      );
  }
  for (const [i, element] of (oil.circuit?.elements ?? []).entries())
    circuitFaults(sheet, byId, element, ['oil', 'circuit', 'elements', i], faults);
}

/** Looks for parameters taken from characteristics, however deep they lie in an element. */
function circuitFaults(
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
    circuitFaults(sheet, byId, inner, [...path, Array.isArray(value) ? Number(key) : key], faults);
}

function parameterFaults(
  sheet: SpecSheet,
  byId: ReadonlyMap<string, Characteristic>,
  parameter: FromCharacteristic,
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

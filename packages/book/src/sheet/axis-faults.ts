import { type Faults, listed } from './fault.ts';
import { axesIn, axisValues, placeCount, placesOf, positionAt, positionsOf } from './places.ts';
import type { Characteristic, SpecSheet } from './sheet.ts';

/** Axes multiply: a sheet with more places than this for one thing is a slip of the pen. */
const MOST_PLACES = 10_000;

const AXIS_NAME = /^[a-z][a-z0-9-]*$/;
/** A value goes into `2/rear/90` and `rod=2,end=rear`, so it holds none of the signs that separate there. */
const AXIS_VALUE = /^[^\s/,;=(){}]+$/;
const POSITION_ID = /^[a-z0-9][a-z0-9.-]*$/;

export function axisFaults(sheet: SpecSheet, faults: Faults): void {
  for (const [axis, values] of Object.entries(sheet.axes)) {
    const path = ['axes', axis];
    if (!AXIS_NAME.test(axis))
      faults.add(
        'axis-name',
        path,
        axis,
        'a letter, then lower-case letters, digits and hyphens',
        `The axis name "${axis}" cannot be typed as part of a place. Write it in lower-case letters, digits and hyphens.`,
      );
    const before = new Set<string>();
    for (const [i, value] of values.entries()) {
      if (!AXIS_VALUE.test(value))
        faults.add(
          'axis-value',
          [...path, i],
          value,
          'a word without spaces and without / , ; = ( ) { }',
          `The value "${value}" of axis ${axis} cannot be typed as part of a place. Use a hyphen instead of the sign.`,
        );
      if (before.has(value.toLowerCase()))
        faults.add(
          'axis-value-twice',
          [...path, i],
          value,
          'each value once, capitals not counting',
          `Axis ${axis} has the value "${value}" twice. Remove one.`,
        );
      before.add(value.toLowerCase());
    }
  }
}

/** Spots belong to an axis of the sheet and to its values, and are lengths. */
export function spotFaults(sheet: SpecSheet, faults: Faults): void {
  for (const [axis, spots] of Object.entries(sheet.spots ?? {})) {
    const values = Object.hasOwn(sheet.axes, axis) ? sheet.axes[axis] : undefined;
    if (!values)
      faults.add(
        'unknown-axis',
        ['spots', axis],
        axis,
        listed(Object.keys(sheet.axes)),
        `There are spots for the axis "${axis}", which the sheet does not have. Add it to axes, or name one of ${listed(Object.keys(sheet.axes))}.`,
      );
    for (const [value, spot] of Object.entries(spots)) {
      const path = ['spots', axis, value];
      if (values && !values.includes(value))
        faults.add(
          'unknown-value',
          path,
          value,
          listed(values),
          `There is a spot for ${axis} "${value}", which is none of its values (${listed(values)}). Correct one or the other.`,
        );
      for (const [i, along] of spot.entries())
        faults.quantity(along, 'length', [...path, i], `Spot ${value} of ${axis}`);
    }
  }
}

/** Axes that a list of places names: known, and each once. */
export function placesFaults(
  sheet: SpecSheet,
  places: readonly string[],
  path: readonly (string | number)[],
  subject: string,
  faults: Faults,
): void {
  for (const [i, axis] of places.entries()) {
    if (!Object.hasOwn(sheet.axes, axis))
      faults.add(
        'unknown-axis',
        [...path, i],
        axis,
        listed(Object.keys(sheet.axes)),
        `${subject} names the axis "${axis}", which the sheet does not have. Add it to axes, or name one of ${listed(Object.keys(sheet.axes))}.`,
      );
    if (places.indexOf(axis) !== i)
      faults.add(
        'axis-twice',
        [...path, i],
        axis,
        'each axis once',
        `${subject} names the axis ${axis} twice.`,
      );
  }
  const count = placeCount(sheet, { places });
  if (count > MOST_PLACES)
    faults.add(
      'too-many-places',
      path,
      `${count} places`,
      `at most ${MOST_PLACES}`,
      `${subject} would have ${count} places. Leave out an axis.`,
    );
}

export function positionFaults(sheet: SpecSheet, faults: Faults): void {
  for (const [i, { id, places = [] }] of sheet.positions.entries()) {
    placesFaults(sheet, places, ['positions', i, 'places'], `Position ${id}`, faults);
    if (placeCount(sheet, { places }) > MOST_PLACES) return;
    bracesFaults(id, places, ['positions', i, 'id'], `Position ${id}`, faults);
    const missing = places.filter((axis) => !axesIn(id).includes(axis));
    if (missing.length > 0)
      faults.add(
        'position-axis',
        ['positions', i, 'id'],
        id,
        missing.map((axis) => `{${axis}}`).join(', '),
        `Position ${id} has the places ${places.join(', ')} but its id does not tell them apart. Write ${missing.map((axis) => `{${axis}}`).join(' and ')} into the id.`,
      );
  }
  const all = positionsOf(sheet);
  for (const { id } of all)
    if (!id.includes('{') && !POSITION_ID.test(id))
      faults.add(
        'position-id',
        ['positions'],
        id,
        'lower-case letters, digits, dots and hyphens',
        `A position comes out as "${id}", which is no id. Write the values of its axes in lower-case letters and digits.`,
      );
  // Where two come out alike the pattern is at fault, not one of its places.
  if (!sheet.positions.some(({ id, places = [] }) => places.some((axis) => !axesIn(id).includes(axis))))
    faults.unique(
      all.map(({ id }) => id),
      () => ['positions'],
      'position',
    );
}

function bracesFaults(
  pattern: string,
  places: readonly string[],
  path: readonly (string | number)[],
  subject: string,
  faults: Faults,
): boolean {
  const strange = axesIn(pattern).filter((axis) => !places.includes(axis));
  const torn = /[{}]/.test(pattern.replace(/\{[^{}]*\}/g, ''));
  if (strange.length === 0 && !torn) return false;
  faults.add(
    'position-axis',
    path,
    pattern,
    places.length > 0 ? places.map((axis) => `{${axis}}`).join(', ') : 'no {axis}, as there are no places',
    torn
      ? `${subject}: a brace is missing in "${pattern}". Write {axis}.`
      : `${subject}: "${pattern}" uses ${strange.map((axis) => `{${axis}}`).join(', ')}, which is none of its places (${listed(places)}).`,
  );
  return true;
}

/** What a characteristic says about places: axes, the values it has of them, what is judged over them, its position. */
export function characteristicPlaceFaults(
  sheet: SpecSheet,
  c: Characteristic,
  index: number,
  known: ReadonlySet<string>,
  faults: Faults,
): void {
  const path = ['characteristics', index];
  placesFaults(sheet, c.places, [...path, 'places'], c.id, faults);
  for (const [axis, values] of Object.entries(c.only ?? {})) {
    const at = [...path, 'only', axis];
    if (!c.places.includes(axis)) {
      faults.add(
        'unknown-axis',
        at,
        axis,
        listed(c.places),
        `${c.id} restricts the axis "${axis}", which is none of its places (${listed(c.places)}).`,
      );
      continue;
    }
    const all = Object.hasOwn(sheet.axes, axis) ? (sheet.axes[axis] ?? []) : [];
    for (const value of values)
      if (!all.includes(value))
        faults.add(
          'unknown-value',
          at,
          value,
          listed(all),
          `${c.id} has the ${axis} "${value}", which the axis does not have. Its values: ${listed(all)}.`,
        );
    if (values.length === 0)
      faults.add(
        'no-places',
        at,
        'an empty list',
        'at least one value',
        `${c.id} is left without any ${axis}. Give a value, or leave "only" out.`,
      );
  }
  for (const [i, axis] of (c.reduce?.over ?? []).entries())
    if (!c.places.includes(axis))
      faults.add(
        'unknown-axis',
        [...path, 'reduce', 'over', i],
        axis,
        listed(c.places),
        `${c.id} is judged over the axis "${axis}", which is none of its places (${listed(c.places)}). Name one of them, or add the axis to its places.`,
      );
  const patterns: [string, (string | number)[]][] = (c.mates ?? []).map((mate, i) => [
    mate,
    [...path, 'mates', i],
  ]);
  if (c.position !== undefined) patterns.unshift([c.position, [...path, 'position']]);
  if (placeCount(sheet, c) > MOST_PLACES) return;
  for (const [pattern, at] of patterns) {
    if (bracesFaults(pattern, c.places, at, c.id, faults)) continue;
    const axes = axesIn(pattern).filter((axis) => axisValues(sheet, c, axis).length > 0);
    const missing = placesOf(sheet, { places: axes, only: c.only })
      .map((place) => positionAt(pattern, place))
      .filter((id) => !known.has(id));
    if (missing.length > 0)
      faults.add(
        'unknown-position',
        at,
        missing.slice(0, 5).join(', '),
        listed([...known].slice(0, 12)),
        `${c.id} belongs to ${missing.slice(0, 5).join(', ')}, which the sheet's positions do not have. Add the position, or correct the name.`,
      );
  }
}

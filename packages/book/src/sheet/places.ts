import { failed, type Outcome, ok } from '@fettle/core';
import type { Characteristic, SpecSheet } from './sheet.ts';

/** Where on a part: a value for each axis, such as `{journal: '2', end: 'rear', turn: '90'}`. */
export type Place = Readonly<Record<string, string>>;

type WithAxes = Pick<SpecSheet, 'axes'>;
type Placed = { readonly places: readonly string[]; readonly only?: Characteristic['only'] };

const own = <T>(record: Readonly<Record<string, T>> | undefined, key: string): T | undefined =>
  record && Object.hasOwn(record, key) ? record[key] : undefined;

/** The values an axis of a characteristic has, in the order in which the bench goes through them. */
export function axisValues(sheet: WithAxes, placed: Placed, axis: string): readonly string[] {
  const all = own(sheet.axes, axis) ?? [];
  const only = own(placed.only, axis);
  return only ? all.filter((value) => only.includes(value)) : all;
}

/** How many places there are, without listing them. */
export const placeCount = (sheet: WithAxes, placed: Placed): number =>
  placed.places.reduce((product, axis) => product * axisValues(sheet, placed, axis).length, 1);

/** Every place of a characteristic in bench order, the last axis fastest; one empty place when it has no axes. */
export function placesOf(sheet: WithAxes, placed: Placed): Place[] {
  let places: Place[] = [{}];
  for (const axis of placed.places) {
    const values = axisValues(sheet, placed, axis);
    places = places.flatMap((place) => values.map((value) => ({ ...place, [axis]: value })));
  }
  return places;
}

/**
 * A place written shortly: `2/rear/90`; empty for no axes.
 *
 * @param axes  their order; a place that came from outside may have its keys in any
 */
export const placeText = (place: Place, axes: readonly string[] = Object.keys(place)): string =>
  axes
    .filter((axis) => Object.hasOwn(place, axis))
    .map((axis) => place[axis])
    .join('/');

/** A place as a relation refers to a characteristic there: axes renamed to its own, then those it fixes. */
export function placeReferred(
  refers: {
    readonly at?: Place | undefined;
    readonly rename?: Readonly<Record<string, string>> | undefined;
  },
  place: Place,
): Place {
  const renamed = Object.entries(refers.rename ?? {}).flatMap(([axis, here]) => {
    const value = own(place, here);
    return value === undefined ? [] : [[axis, value] as const];
  });
  return { ...place, ...Object.fromEntries(renamed), ...refers.at };
}

/** The axes a pattern such as `rod-{rod}` names, each once. */
export const axesIn = (pattern: string): string[] => [
  ...new Set([...pattern.matchAll(/\{([^{}]*)\}/g)].map((match) => match[1] ?? '')),
];

/** `rod-{rod}` at rod 2 is `rod-2`. An axis the place lacks stays as it is written. */
export const positionAt = (pattern: string, place: Place): string =>
  pattern.replace(/\{([^{}]*)\}/g, (whole, axis: string) => own(place, axis) ?? whole);

/** A position as it stands on the engine, its pattern filled in. */
export interface SheetPosition {
  readonly id: string;
  readonly name: string;
  readonly place: Place;
  /** The sheet's own id for all its places, such as `rod-{rod}`. */
  readonly pattern: string;
}

/** Every position of the sheet, those with places written out one by one. */
export function positionsOf(sheet: Pick<SpecSheet, 'axes' | 'positions'>): SheetPosition[] {
  return sheet.positions.flatMap(({ id, name, places = [] }) =>
    placesOf(sheet, { places }).map((place) => ({
      id: positionAt(id, place),
      name: positionAt(name, place),
      place,
      pattern: id,
    })),
  );
}

/** A is at B when every axis A names has B's value: a reading without an axis is spread over it. */
export const isAt = (a: Place, b: Place): boolean =>
  Object.entries(a).every(([axis, value]) => own(b, axis) === value);

/** The axes of `place` that are among `axes`, in the order of `axes`. */
export const placeAlong = (place: Place, axes: readonly string[]): Place =>
  Object.fromEntries(
    axes.flatMap((axis) => {
      const value = own(place, axis);
      return value === undefined ? [] : [[axis, value]];
    }),
  );

/** The one value meant: capitals count only where they must. */
function valueMeant(values: readonly string[], said: string): string | undefined {
  if (values.includes(said)) return said;
  const alike = values.filter((value) => value.toLowerCase() === said.toLowerCase());
  return alike.length === 1 ? alike[0] : undefined;
}

/**
 * A place as a person writes it: `2/rear/90` in the order of the axes, a beginning of that (`2`), or by name
 * (`rod=2,end=rear`).
 *
 * @returns the axes that were fixed, in the order of the characteristic; the others stay open
 */
export function placeFrom(sheet: WithAxes, placed: Placed & { id: string }, text: string): Outcome<Place> {
  const axes = placed.places;
  const wanted =
    axes.length === 0
      ? 'no place: it is read in one place only'
      : axes.map((axis) => `${axis} (${axisValues(sheet, placed, axis).join(', ')})`).join(' / ');
  const refuse = (why: string) =>
    failed({
      code: 'place/unknown',
      at: placed.id,
      got: text.trim(),
      wanted,
      message:
        axes.length === 0
          ? `${placed.id} is read in one place only, so "${text.trim()}" is no place of it. Leave the place out.`
          : `${placed.id} has no place "${text.trim()}": ${why}. Say it as ${wanted}.`,
    });
  const place: Record<string, string> = {};
  const named = text.includes('=');
  const parts = text.trim() === '' ? [] : text.split(/[/,;]/).map((part) => part.trim());
  for (const [i, part] of parts.entries()) {
    const cut = part.indexOf('=');
    if (named && cut < 1) return refuse('every axis goes by its name, or none');
    const axis = named ? part.slice(0, cut).trim().toLowerCase() : axes[i];
    const said = named ? part.slice(cut + 1).trim() : part;
    if (axis === undefined) return refuse(`it has ${axes.length === 1 ? 'one axis' : `${axes.length} axes`}`);
    if (!axes.includes(axis)) return refuse(`there is no axis ${axis}`);
    if (Object.hasOwn(place, axis)) return refuse(`${axis} is given twice`);
    const value = valueMeant(axisValues(sheet, placed, axis), said);
    if (value === undefined) return refuse(`there is no ${axis} ${said || '""'}`);
    place[axis] = value;
  }
  return ok(placeAlong(place, axes));
}

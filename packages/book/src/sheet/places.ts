import { failed, ok, type Outcome } from '@fettle/core';
import type { Characteristic, SpecSheet } from './sheet.ts';

/** Where on a part: a value for each axis, such as `{journal: '2', end: 'rear', turn: '90'}`. */
export type Place = Readonly<Record<string, string>>;

type Placed = Pick<Characteristic, 'places' | 'only'>;

/** The values an axis of a characteristic has, in the order in which the bench goes through them. */
export function axisValues(sheet: Pick<SpecSheet, 'axes'>, placed: Placed, axis: string): readonly string[] {
  const all = sheet.axes[axis] ?? [];
  const only = placed.only?.[axis];
  return only ? all.filter((value) => only.includes(value)) : all;
}

/** Every place of a characteristic in bench order, the last axis fastest; one empty place when it has no axes. */
export function placesOf(sheet: Pick<SpecSheet, 'axes'>, placed: Placed): Place[] {
  return placed.places.reduce<Place[]>(
    (places, axis) =>
      places.flatMap((place) => axisValues(sheet, placed, axis).map((value) => ({ ...place, [axis]: value }))),
    [{}],
  );
}

/** A place written shortly, values in the order of its axes: `2/rear/90`; empty for no axes. */
export const placeText = (place: Place): string => Object.values(place).join('/');

/** `rod-{rod}` at rod 2 is `rod-2`. An axis the place lacks stays as it is written. */
export const positionAt = (pattern: string, place: Place): string =>
  pattern.replace(/\{([^}]*)\}/g, (whole, axis: string) => place[axis] ?? whole);

/** A is at B when every axis A names has B's value: a reading without an axis is spread over it. */
export const isAt = (a: Place, b: Place): boolean => Object.entries(a).every(([axis, value]) => b[axis] === value);

/** The axes of `place` that are among `axes`, in the order of `axes`. */
export const placeAlong = (place: Place, axes: readonly string[]): Place =>
  Object.fromEntries(axes.flatMap((axis) => (place[axis] === undefined ? [] : [[axis, place[axis]]])));

/**
 * A place as a person writes it: `2/rear/90` in the order of the axes, a beginning of that (`2`), or by name
 * (`rod=2,end=rear`).
 */
export function placeFrom(sheet: Pick<SpecSheet, 'axes'>, placed: Placed & { id: string }, text: string): Outcome<Place> {
  const wanted =
    placed.places.length === 0
      ? 'no place: it is read in one place only'
      : placed.places.map((axis) => `${axis} (${axisValues(sheet, placed, axis).join(', ')})`).join(' / ');
  const refuse = (got: string) =>
    failed({
      code: 'place/unknown',
      at: placed.id,
      got,
      wanted,
      message: `${placed.id} has no place "${got}". Say it as ${wanted}.`,
    });
  const place: Record<string, string> = {};
  const parts = text.split(/[/,]/).map((part) => part.trim());
  for (const [i, part] of parts.entries()) {
    const named = /^([^=]+)=(.*)$/.exec(part);
    const axis = named ? named[1]!.trim() : placed.places[i];
    const value = named ? named[2]!.trim() : part;
    if (axis === undefined || !placed.places.includes(axis)) return refuse(text);
    if (!axisValues(sheet, placed, axis).includes(value)) return refuse(text);
    place[axis] = value;
  }
  return ok(placeAlong(place, placed.places));
}

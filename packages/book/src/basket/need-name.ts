import { type Place, placesOf, positionAt } from '../sheet/places.ts';
import type { SpecSheet } from '../sheet/sheet.ts';

/** A position of the sheet, and what goes there whatever its place. */
export interface NeedOfPosition {
  /** `piston` for what goes in `piston-3`. */
  readonly need: string;
  readonly name: string;
  readonly place: Place;
}

const PLACE = /[-.]?\{[^{}]*\}/g;

/** What has to be had for a position: its id without the place. Undefined for one the sheet does not know. */
export function needOfPosition(sheet: SpecSheet | undefined, position: string): NeedOfPosition | undefined {
  for (const { id, name, places = [] } of sheet?.positions ?? [])
    for (const place of placesOf(sheet!, { places }))
      if (positionAt(id, place) === position)
        return { need: id.replace(PLACE, ''), name: name.replace(PLACE, ''), place };
  return undefined;
}

/** A need in a size: shells .010 under are not shells of standard size. */
export const needKey = (need: string, size?: string): string =>
  size === undefined ? need : `${need} ${size}`;

/** A part that is to be machined, as a need of its own. */
export const machiningKey = (part: string): string => `machining of ${part}`;

import { limitsOf, siOf } from '../assess/limits.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Book } from '../fold/book.ts';
import { type Place, placeAlong, placesOf, placeText, positionAt } from '../sheet/places.ts';
import { characteristicsIn } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';

export interface MadeSize {
  readonly name: string;
  /** From the standard size, in SI; below zero for undersizes. */
  readonly shift: number;
  readonly obtainable: boolean;
}

/** One feature of a family: a bore, a journal, with the places it is measured at. */
export interface Feature {
  readonly place: Place;
  readonly places: readonly Place[];
}

/** Sizes that are cut alike: all bores, all main journals, all rod journals. */
export interface SizeFamily {
  readonly characteristic: Characteristic;
  readonly cut: 'bore' | 'journal';
  /** In the order in which metal goes. */
  readonly sizes: readonly MadeSize[];
  readonly features: readonly Feature[];
  /** Positions whose parts are cut. */
  readonly positions: readonly string[];
}

/**
 * The families of a sheet: lengths measured on a part, with both limits for new parts, limits for wear, and sizes that
 * can be bought. What has no limits for wear, such as the wall of a shell, is bought in sizes and not cut to them.
 */
export const familiesOf = (book: Book): SizeFamily[] =>
  [...book.characteristics.values()].flatMap((characteristic) => {
    const { kind, sizes, relation, limits, position } = characteristic;
    if (kind !== 'length' || !sizes?.length || relation !== undefined || position === undefined) return [];
    if (limits?.new?.lower === undefined || limits.new.upper === undefined || !limits.wear) return [];
    const made = sizes.flatMap(({ name, shift, obtainable }): MadeSize[] => {
      const si = siOf(shift, characteristic);
      return si === undefined || si === 0 ? [] : [{ name, shift: si, obtainable }];
    });
    const over = made.every(({ shift }) => shift > 0);
    // Sizes both ways are no series that metal is taken off by.
    if (made.length === 0 || !(over || made.every(({ shift }) => shift < 0))) return [];
    const features = featuresOf(book, characteristic);
    return [
      {
        characteristic,
        cut: over ? ('bore' as const) : ('journal' as const),
        sizes: made.sort((a, b) => Math.abs(a.shift) - Math.abs(b.shift)),
        features,
        positions: [...new Set(features.map(({ place }) => positionAt(position, place)))],
      },
    ];
  });

function featuresOf(book: Book, characteristic: Characteristic): Feature[] {
  const over = characteristic.reduce?.over ?? [];
  const axes = characteristic.places.filter((axis) => !over.includes(axis));
  const features = new Map<string, { place: Place; places: Place[] }>();
  for (const at of placesOf(book.sheet ?? { axes: {} }, characteristic)) {
    const place = placeAlong(at, axes);
    const feature = features.get(placeText(place)) ?? { place, places: [] };
    feature.places.push(at);
    features.set(placeText(place), feature);
  }
  return [...features.values()];
}

/** How far it has been cut already: the shift of the size its part was last made to. */
export function shiftNow(
  { characteristic, sizes, features }: SizeFamily,
  reckoning: Reckoning,
): MadeSize | undefined {
  const names = features.map(({ places }) => reckoning.ownState(characteristic, places[0]!)?.size);
  return sizes.findLast(({ name }) => names.includes(name));
}

/** Limits for new parts at a size, of which both are there: a family has them. */
export function madeLimits(
  { characteristic }: SizeFamily,
  size: string | undefined,
): { readonly lower: number; readonly upper: number } {
  const { lower = Number.NaN, upper = Number.NaN } = limitsOf(characteristic, 'new', size) ?? {};
  return { lower, upper };
}

/** Whether a characteristic rests on another, directly or through what lies between. */
export function restsOn(book: Book, characteristic: Characteristic, id: string): boolean {
  const seen = new Set<string>();
  const visit = (one: Characteristic): boolean => {
    if (one.id === id) return true;
    if (one.relation === undefined || seen.has(one.id)) return false;
    seen.add(one.id);
    return characteristicsIn(one.relation).some((next) => {
      const found = book.characteristics.get(next);
      return found !== undefined && visit(found);
    });
  };
  return visit(characteristic);
}

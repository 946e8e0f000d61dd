import type { Place } from '../sheet/places.ts';

/** A characteristic at one of its places. */
export interface Spot {
  readonly characteristic: string;
  readonly place: Place;
}

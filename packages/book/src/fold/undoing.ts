import type { Entry } from '../ledger/entry.ts';
import type { Place } from '../sheet/places.ts';

/** Something after which a joint tightened before is no longer known to be tight. */
export type Undoing = { readonly entry: Entry } & (
  | {
      readonly what: 'loosened';
      readonly joint: string;
      readonly place: Place;
      readonly state: 'loose' | 'dry' | 'finger-tight';
    }
  | { readonly what: 'opened'; readonly cover: string }
  /** Positions it came into or left, or stood at when it was reworked. */
  | { readonly what: 'refitted' | 'reworked'; readonly part?: string; readonly positions: readonly string[] }
);

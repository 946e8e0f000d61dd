import { type Metre, metre } from '../units/si.ts';

/** Least and greatest size [m]. */
export interface SizeLimits {
  readonly least: Metre;
  readonly greatest: Metre;
}

/**
 * Clearance of a hole over a shaft by worst case; negative is interference [m].
 *
 * @source iso-286-1
 */
export function fitClearance(hole: SizeLimits, shaft: SizeLimits): SizeLimits {
  return { least: metre(hole.least - shaft.greatest), greatest: metre(hole.greatest - shaft.least) };
}

/**
 * Half the range of the clearance when hole and shaft vary independently about their middles:
 * √(t_hole² + t_shaft²)/2 [m]. Worn parts are not so distributed; this is for parts as made.
 */
export function rootSumSquareHalfRange(hole: SizeLimits, shaft: SizeLimits): Metre {
  return metre(Math.hypot(hole.greatest - hole.least, shaft.greatest - shaft.least) / 2);
}

/** The shaft whose worst-case clearances in a hole are the given ones [m]. */
export function shaftForClearance(hole: SizeLimits, wanted: SizeLimits): SizeLimits {
  return { least: metre(hole.greatest - wanted.greatest), greatest: metre(hole.least - wanted.least) };
}

/**
 * Bores each made to its own piston: from the smallest with the least clearance to the largest with the most [m].
 * A piston has to be measured before its bore is finished; its class alone leaves all of this range.
 */
export function boresToSuit(pistons: SizeLimits, clearance: SizeLimits): SizeLimits {
  return {
    least: metre(pistons.least + clearance.least),
    greatest: metre(pistons.greatest + clearance.greatest),
  };
}

/** Wall of a half shell that fills a housing down to a bore: (housing − bore)/2 [m]. */
export function shellWall(
  housing: SizeLimits,
  bore: SizeLimits,
): { readonly thin: Metre; readonly thick: Metre } {
  return {
    thick: metre((housing.least - bore.least) / 2),
    thin: metre((housing.greatest - bore.greatest) / 2),
  };
}

/**
 * Crush of two half shells: what they stand proud at their four edges is excess of perimeter, and acts like an
 * interference of that excess over π.
 *
 * @param excess  one half shell's, at each of its two edges [m]
 */
export function shellCrush(excess: Metre): { readonly perimeter: Metre; readonly diametral: Metre } {
  return { perimeter: metre(4 * excess), diametral: metre((4 * excess) / Math.PI) };
}

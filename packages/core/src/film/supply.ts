/**
 * How oil gets into a bearing. Sizes are shares of the bearing's length or angles [rad], so that they say the same
 * for every bearing of one shape. Angles stand from the direction of the load on the journal, in the sense of
 * rotation: π is opposite the load.
 */
export type Supply =
  /** A groove all round in the middle, between two lands. */
  | { readonly kind: 'full-groove'; readonly width: number }
  /** A groove in the middle over half the circumference, as in the unloaded shell. */
  | { readonly kind: 'half-groove'; readonly width: number; readonly at: number }
  /** A groove along the bearing, short of its edges. */
  | { readonly kind: 'axial-groove'; readonly length: number; readonly arc: number; readonly at: number }
  /** Two such grooves, a quarter turn either side of the load. */
  | { readonly kind: 'two-axial-grooves'; readonly length: number; readonly arc: number }
  /** A round hole in the middle. */
  | { readonly kind: 'hole'; readonly diameter: number; readonly at: number };

export interface BearingShape {
  /** L/D, L the whole length, groove included. */
  readonly lengthOverDiameter: number;
  readonly supply: Supply;
}

/** A place of given pressure, in journal radii and radians. */
export interface Pad {
  /** Centre, from the load. */
  readonly at: number;
  readonly halfArc: number;
  /** Half its extent along the bearing. */
  readonly reach: number;
  readonly round: boolean;
}

/** Pads in rising order of angle, within one turn. */
export function padsOf({ lengthOverDiameter, supply }: BearingShape): readonly Pad[] {
  // L/2 over R is L/D.
  const half = lengthOverDiameter;
  const rectangle = (at: number, arc: number, share: number): Pad => ({
    at,
    halfArc: arc / 2,
    reach: share * half,
    round: false,
  });
  switch (supply.kind) {
    case 'full-groove':
      return [];
    case 'half-groove':
      return [rectangle(supply.at, Math.PI, supply.width)];
    case 'axial-groove':
      return [rectangle(supply.at, supply.arc, supply.length)];
    case 'two-axial-grooves':
      return [
        rectangle(Math.PI / 2, supply.arc, supply.length),
        rectangle((3 * Math.PI) / 2, supply.arc, supply.length),
      ];
    case 'hole': {
      const radius = supply.diameter * half;
      return [{ at: supply.at, halfArc: radius, reach: radius, round: true }];
    }
  }
}

/** p* for which a fed bearing is solved. */
export const SUPPLY_RANGE = { most: 20 } as const;

/** What is wrong with a shape, as the key and what was wanted; undefined when it can be solved. */
export function shapeFault({
  lengthOverDiameter,
  supply,
}: {
  readonly lengthOverDiameter: number;
  readonly supply: Supply | undefined;
}): { key: string; wanted: string } | undefined {
  if (!(lengthOverDiameter >= 0.05 && lengthOverDiameter <= 4))
    return { key: 'length', wanted: 'a bearing from 0.05 to 4 diameters long' };
  const share = (key: string, value: number, most: number, what: string) =>
    value >= 0.05 && value <= most
      ? undefined
      : { key, wanted: `${what} from 0.05 to ${most} of the bearing's length` };
  switch (supply?.kind) {
    case undefined:
      return undefined;
    case 'full-groove':
      return share('groove_width', supply.width, 0.8, 'a groove');
    case 'half-groove':
      return share('groove_width', supply.width, 0.8, 'a groove');
    case 'axial-groove':
    case 'two-axial-grooves':
      return (
        share('groove_length', supply.length, 0.95, 'a groove') ??
        (supply.arc >= 0.03 && supply.arc <= 1.6
          ? undefined
          : { key: 'groove_width', wanted: 'an axial groove 2 to 90 degrees wide round the journal' })
      );
    case 'hole':
      return share('hole_diameter', supply.diameter, 0.6, 'a hole');
  }
}

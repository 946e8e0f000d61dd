/**
 * Masses that stand in where nobody weighed: kilograms for a square metre of piston area, petrol engines of 60 to
 * 100 mm bore, the middle of the published range.
 *
 * @source engine-mass-table
 */
export const MASS_OVER_AREA = {
  /** Aluminium piston with rings and pin. */
  piston: { low: 80, middle: 115, high: 150 },
  /** Whole connecting rod with its cap, bolts and shells. */
  rod: { low: 100, middle: 150, high: 200 },
} as const;

/** Share of the rod's mass at its big end, 0.7 to 0.8. @source engine-mass-table */
export const BIG_END_SHARE = 0.725;

/** Pressure of the charge over the air outside while idling: a throttle almost shut. Typical, no source. */
export const IDLING_LOAD = 0.35;

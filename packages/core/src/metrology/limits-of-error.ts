/**
 * Limits of error of measuring instruments as published, for those that have any. Where a standard leaves the figure to
 * the maker (ISO 3611, ISO 13385-1, ISO 463) the national table that still prints one is taken.
 * A size or a class the table does not list gets nothing.
 */

const MICRO = 1e-6;
const MM = 1e-3;
/** A size of 50 mm that arithmetic left a little above is still 50 mm. */
const HAIR = 1 + 1e-9;
/** Made in inches, the tool of 4 in is the one of 100 mm: by so much the one is longer than the other. */
const INCH_MADE = 1.016 * HAIR;

const upTo = (table: readonly (readonly [number, number])[], size: number): number | undefined =>
  table.find(([most]) => size <= most * INCH_MADE)?.[1];

const MICROMETER: readonly (readonly [number, number])[] = [50, 100, 150, 200, 250, 300].map(
  (most, i) => [most * MM, (4 + i) * MICRO] as const,
);

/** Of an outside micrometer, by the upper end of its range [m]. @source din-863-1 */
export const micrometerLimit = (range: number): number | undefined => upTo(MICROMETER, range);

const FINE: readonly (readonly [number, number])[] = [
  [0.1, 20 * MICRO],
  [0.5, 30 * MICRO],
];
const COARSE: readonly (readonly [number, number])[] = [[0.3, 50 * MICRO]];
/** Inside and depth are taken with one more contact. */
const INSIDE = 20 * MICRO;

/**
 * Of a calliper, by what it measures and by its step [m]: .02 mm and finer, or .05 to .1 mm.
 *
 * @source din-862
 */
export function calliperLimit(length: number, step: number, inside = false): number | undefined {
  // A thousandth of an inch is .0254 mm and is made like .02 mm.
  const found = upTo(step <= 0.03 * MM ? FINE : COARSE, length);
  return found === undefined ? undefined : found + (inside ? INSIDE : 0);
}

/** Of a dial indicator of .01 mm over 10 mm: all of its travel, a tenth of a turn, coming back [m]. @source din-878 */
export const DIAL_INDICATOR = { total: 17 * MICRO, local: 5 * MICRO, repeat: 3 * MICRO } as const;

const GAUGE_BLOCK: readonly (readonly [number, number, number])[] = [
  [10, 0.2, 0.45],
  [25, 0.3, 0.6],
  [50, 0.4, 0.8],
  [75, 0.5, 1],
  [100, 0.6, 1.2],
  [150, 0.8, 1.6],
  [200, 1, 2],
  [250, 1.2, 2.4],
  [300, 1.4, 2.8],
];

/** Of a gauge block of grade 1 or 2, by its length [m]. @source iso-3650 */
export function gaugeBlockLimit(length: number, grade: 1 | 2): number | undefined {
  const found = GAUGE_BLOCK.find(([most]) => length <= most * MM * INCH_MADE)?.[grade];
  return found === undefined ? undefined : found * MICRO;
}

const PRESSURE_CLASSES = [0.1, 0.25, 0.6, 1, 1.6, 2.5, 4];

/** Of a pressure gauge of a class, anywhere on its dial [unit of the span]. @source en-837-1 */
export const pressureGaugeLimit = (accuracy: number, span: number): number | undefined =>
  PRESSURE_CLASSES.includes(accuracy) ? (accuracy / 100) * span : undefined;

/** Up to here a wrench with a scale may be off by more [N·m]. */
const SMALL_TORQUE = 10;

/**
 * Of a torque wrench, as a share of what it says: one set by a scale, by the greatest torque it is marked for [N·m];
 * one that bends a beam.
 *
 * @source iso-6789
 */
export const torqueToolLimit = (made: 'scale' | 'beam', greatest: number): number =>
  made === 'beam' || greatest <= SMALL_TORQUE ? 0.06 : 0.04;

/** Of a steel rule of class II, by its length [m]: .3 mm and .2 mm a metre begun. @source mid-2014-32 */
export const steelRuleLimit = (length: number): number => (0.3 + 0.2 * Math.ceil(length / HAIR)) * MM;

/** How much one feeler leaf may vary in thickness, by what it says [m]. @source feeler-leaf-tolerance */
export const leafLimit = (thickness: number): number => (thickness <= 0.3 * MM * HAIR ? 4 : 6) * MICRO;

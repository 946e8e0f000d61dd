/** Threads per inch of one Unified size in the three graded series; a dash in the standard is left out. */
export interface UnifiedSize {
  /** As written: `#10`, `5/16`, `1-1/8`. */
  readonly name: string;
  /** Basic major diameter [in]. */
  readonly inches: number;
  readonly UNC?: number;
  readonly UNF?: number;
  readonly UNEF?: number;
}

const GRADED_SERIES = ['UNC', 'UNF', 'UNEF'] as const;
export type GradedSeries = (typeof GRADED_SERIES)[number];

/** Pitches of the constant-pitch series, which the letters UN announce. */
export const CONSTANT_PITCHES: readonly number[] = [4, 6, 8, 12, 16, 20, 28, 32];

const size = (name: string, inches: number, UNC?: number, UNF?: number, UNEF?: number): UnifiedSize => ({
  name,
  inches,
  ...(UNC === undefined ? {} : { UNC }),
  ...(UNF === undefined ? {} : { UNF }),
  ...(UNEF === undefined ? {} : { UNEF }),
});

/** ASME B1.1 series table, number sizes and 1/4 to 2 in. @source asme-b1-1 */
export const UNIFIED_SIZES: readonly UnifiedSize[] = [
  size('#0', 0.06, undefined, 80),
  size('#1', 0.073, 64, 72),
  size('#2', 0.086, 56, 64),
  size('#3', 0.099, 48, 56),
  size('#4', 0.112, 40, 48),
  size('#5', 0.125, 40, 44),
  size('#6', 0.138, 32, 40),
  size('#8', 0.164, 32, 36),
  size('#10', 0.19, 24, 32),
  size('#12', 0.216, 24, 28, 32),
  size('1/4', 0.25, 20, 28, 32),
  size('5/16', 0.3125, 18, 24, 32),
  size('3/8', 0.375, 16, 24, 32),
  size('7/16', 0.4375, 14, 20, 28),
  size('1/2', 0.5, 13, 20, 28),
  size('9/16', 0.5625, 12, 18, 24),
  size('5/8', 0.625, 11, 18, 24),
  size('11/16', 0.6875, undefined, undefined, 24),
  size('3/4', 0.75, 10, 16, 20),
  size('13/16', 0.8125, undefined, undefined, 20),
  size('7/8', 0.875, 9, 14, 20),
  size('15/16', 0.9375, undefined, undefined, 20),
  size('1', 1, 8, 12, 20),
  size('1-1/8', 1.125, 7, 12, 18),
  size('1-1/4', 1.25, 7, 12, 18),
  size('1-3/8', 1.375, 6, 12, 18),
  size('1-1/2', 1.5, 6, 12, 18),
  size('1-3/4', 1.75, 5),
  size('2', 2, 4.5),
];

/** Which graded series holds this pitch at this size, if any. */
export function gradedSeriesOf(size: UnifiedSize, perInch: number): GradedSeries | undefined {
  return GRADED_SERIES.find((series) => size[series] === perInch);
}

/** `18 UNC, 24 UNF, 32 UNEF`: what a person may choose from at this size. */
export function pitchesOf(size: UnifiedSize): string {
  return GRADED_SERIES.filter((series) => size[series] !== undefined)
    .map((series) => `${size[series]} ${series}`)
    .join(', ');
}

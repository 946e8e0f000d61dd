/** What the cylinders of one engine read against each other [Pa]. */
export interface CompressionSpread {
  readonly highest: number;
  readonly lowest: number;
  /** Where it is, from 0, in the order given. */
  readonly lowestAt: number;
  readonly spread: number;
  /** Of the highest. */
  readonly fraction: number;
}

/** Spreads that a shop manual lets pass: as a pressure [Pa], and as a share of the highest. The stricter first. */
export const USUAL_SPREADS = { pressure: [15, 20], fraction: [0.1, 0.15] } as const;

/**
 * Highest less lowest, and what share of the highest that is.
 *
 * @param readings  one per cylinder [Pa], at least two, all above nothing
 * @source navedtra-14264 for the limits usually put on it; the two kinds can disagree
 */
export function compressionSpread(readings: readonly number[]): CompressionSpread {
  const [highest, lowest] = [Math.max(...readings), Math.min(...readings)];
  const spread = highest - lowest;
  return { highest, lowest, lowestAt: readings.indexOf(lowest), spread, fraction: spread / highest };
}

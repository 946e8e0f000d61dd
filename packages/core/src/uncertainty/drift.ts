import { repeated } from './evaluation.ts';

/**
 * How much each reading resembles the one before it: the autocorrelation at lag one.
 *
 *     r₁ = Σ (x_i − x̄)(x_{i+1} − x̄) / Σ (x_i − x̄)²
 *
 * Readings that creep have it near 1 and are not independent: s/√n is then far too small for their mean. Readings that
 * do not differ at all have no such figure.
 *
 * @source nist-strd, as its univariate data sets define it
 */
export function lagOneCorrelation(readings: readonly number[]): number | undefined {
  const { mean, sd } = repeated(readings);
  if (sd === 0) return undefined;
  let together = 0;
  let alone = 0;
  readings.forEach((x, i) => {
    const off = x - mean;
    alone += off * off;
    const next = readings[i + 1];
    if (next !== undefined) together += off * (next - mean);
  });
  return together / alone;
}

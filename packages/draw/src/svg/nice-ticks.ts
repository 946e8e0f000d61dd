/**
 * Round values that divide a scale: steps of 1, 2 or 5 times a power of ten.
 *
 * @param count  about how many are wanted
 * @returns rising, all within [least, most]; a single one where the two are equal, none where one is not
 *   finite or they differ too little for their digits
 */
export function niceTicks(least: number, most: number, count = 5): number[] {
  if (!Number.isFinite(least) || !Number.isFinite(most) || most < least) return [];
  if (most === least) return [least];
  const rough = (most - least) / Math.max(1, count);
  const power = Math.floor(Math.log10(rough));
  const unit = 10 ** power;
  const lead = rough / unit;
  const factor = lead < 1.5 ? 1 : lead < 3.5 ? 2 : lead < 7.5 ? 5 : 10;
  const step = factor * unit;
  // Beyond these a step is lost in the digits of the number it is added to.
  const lost = power < -90 || Math.max(Math.abs(least), Math.abs(most)) / step > 1e12;
  if (lost || !Number.isFinite(step)) return [];
  // Counted in whole steps, and rounded to the step's own decimals: repeated adding would drift.
  const decimals = Math.min(100, Math.max(0, -(power + (factor === 10 ? 1 : 0))));
  const ticks: number[] = [];
  for (let k = Math.ceil(least / step - 1e-9); k <= Math.floor(most / step + 1e-9); k++) {
    ticks.push(Number((k * step).toFixed(decimals)) + 0);
  }
  return ticks;
}

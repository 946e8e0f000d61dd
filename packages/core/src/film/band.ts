/**
 * Solves a banded system in place, without exchanging rows: the films' matrices are M-matrices, whose pivots stay
 * positive. A row of the band holds its `reach` left neighbours, itself, and its `reach` right ones.
 *
 * @param band   size × (2 reach + 1), row by row; left as its factors
 * @param right  the right-hand side; left as the answer
 * @returns      false when a pivot vanished
 */
export function solvedBand(band: Float64Array, size: number, reach: number, right: Float64Array): boolean {
  const width = 2 * reach + 1;
  for (let k = 0; k < size; k++) {
    const pivotAt = k * width + reach;
    const pivot = band[pivotAt]!;
    if (!(Math.abs(pivot) > 1e-300)) return false;
    const last = Math.min(size - 1, k + reach);
    let to = last - k;
    while (to > 0 && band[pivotAt + to] === 0) to--;
    const here = right[k]!;
    for (let r = k + 1; r <= last; r++) {
      const at = r * width + reach - (r - k);
      const factor = band[at]! / pivot;
      if (factor === 0) continue;
      for (let c = 1; c <= to; c++) band[at + c] = band[at + c]! - factor * band[pivotAt + c]!;
      right[r] = right[r]! - factor * here;
    }
  }
  for (let k = size - 1; k >= 0; k--) {
    const pivotAt = k * width + reach;
    const last = Math.min(size - 1, k + reach) - k;
    let sum = right[k]!;
    for (let c = 1; c <= last; c++) sum -= band[pivotAt + c]! * right[k + c]!;
    right[k] = sum / band[pivotAt]!;
  }
  return true;
}

/**
 * A figure with its doubt: `7.9 ±0.8`, `32 ±11`, `75.0 ±0.03`. A doubt of two significant figures at the most and never
 * of nothing; the value stops where its doubt does. The figure alone where there is no doubt.
 *
 * @param U      half width, in the unit of the value
 * @param usual  figures after the point that such a value has at the most
 */
export function doubted(value: number, U: number, usual: number): string {
  if (!(U > 0)) return value.toFixed(usual);
  // Two figures from the first that is not zero.
  const decimals = Math.min(usual, Math.max(0, 1 - Math.floor(Math.log10(U))));
  const doubt = U.toFixed(decimals);
  return `${value.toFixed(decimals)} ±${Number(doubt) === 0 ? smallDoubt(U) : doubt}`;
}

/** One significant figure, without an exponent: nobody at a bench reads 3e-2. */
const smallDoubt = (U: number): string => U.toFixed(Math.min(6, -Math.floor(Math.log10(U))));

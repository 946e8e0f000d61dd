import { expanded, inUnit, linear, type Uncertain } from '@fettle/core';

/** `+4.2 ±0.3 psi`: what one figure has over another, with the doubt of what they do not share. */
export function gainOver(of: Uncertain, over: Uncertain, unit: string): string {
  const gain = linear([
    { factor: 1, of },
    { factor: -1, of: over },
  ]);
  const decimals = unit === 'bar' ? 2 : 1;
  const U = inUnit(expanded(gain).U, unit);
  const words = Math.abs(inUnit(gain.value, unit)).toFixed(decimals);
  const sign = Number(words) === 0 ? '' : gain.value < 0 ? '−' : '+';
  // A gain far better known than it is printed would show as ±0.
  const band = U.toFixed(decimals);
  return `${sign}${words}${Number(band) === 0 ? '' : ` ±${band}`} ${unit}`;
}

import { expanded, inUnit, printQuantity, standardUncertainty, type Uncertain } from '@fettle/core';
import type { Limits } from '../assess/limits.ts';
import type { Operand } from '../assess/operand.ts';
import type { Characteristic } from '../sheet/sheet.ts';

// The words for a quantity are the same at the bench, in the terminal and on paper; only the unit may be chosen.

/** Figures after the point with which a unit is printed when the sheet does not say. */
export const DECIMALS: Readonly<Record<string, number>> = {
  in: 4,
  thou: 1,
  mm: 3,
  um: 0,
  psi: 1,
  kPa: 0,
  bar: 2,
  lbf: 1,
  N: 1,
  'lbf.ft': 1,
  'N.m': 1,
  'lbf/in': 2,
  'N/mm': 2,
  deg: 1,
  g: 1,
  cm3: 1,
  mL: 1,
  in3: 3,
  rpm: 0,
  degC: 0,
  degF: 0,
};

/** The unit in which the sheet prints it. */
const ownUnit = ({ unit, kind }: Characteristic): string | undefined => (kind === 'seen' ? undefined : unit);

/** Figures after the point: the sheet's own, or those usual for the unit. */
function decimalsOf(characteristic: Characteristic, unit: string): number {
  const own = unit === characteristic.unit ? characteristic.decimals : undefined;
  return own ?? DECIMALS[unit] ?? 4;
}

/** An SI number in the unit in which the characteristic is shown. */
export function shown(characteristic: Characteristic, si: number, unit = ownUnit(characteristic)): string {
  if (unit === undefined) return `${Number(si.toPrecision(6))}`;
  return printQuantity(si, unit, decimalsOf(characteristic, unit));
}

/** The number alone, for a row that names the unit once. */
export function bare(characteristic: Characteristic, si: number, unit = ownUnit(characteristic)): string {
  return unit === undefined
    ? `${Number(si.toPrecision(6))}`
    : inUnit(si, unit).toFixed(decimalsOf(characteristic, unit));
}

/** Half the band at about 95 %. */
export const halfBand = (q: Uncertain): number => expanded(q).U;

/** `2.4980 ±0.0002 in`, `4 to 5 thou`, `at least 3.0 thou`, `not known`. */
export function operandWords(
  characteristic: Characteristic,
  operand: Operand,
  unit = ownUnit(characteristic),
): string {
  if (operand.kind === 'missing') return 'not known';
  if (operand.kind === 'value') {
    const U = halfBand(operand.q);
    // One more figure for a doubt that would otherwise round to nothing.
    const doubt = bare(characteristic, U, unit);
    const band =
      standardUncertainty(operand.q) === 0
        ? ''
        : ` ±${Number(doubt) === 0 ? significant(characteristic, U, unit) : doubt}`;
    return shown(characteristic, operand.q.value, unit).replace(/^([-\d.]+)/, `$1${band}`);
  }
  const { lower, upper } = operand;
  if (lower && upper)
    return `${bare(characteristic, lower.value, unit)} to ${shown(characteristic, upper.value, unit)}`;
  return lower
    ? `at least ${shown(characteristic, lower.value, unit)}`
    : `under ${shown(characteristic, upper!.value, unit)}`;
}

function significant(characteristic: Characteristic, si: number, unit = ownUnit(characteristic)): string {
  return String(Number((unit === undefined ? si : inUnit(si, unit)).toPrecision(1)));
}

/** A doubt with two significant figures and its unit. */
export function uncertaintyWords(
  characteristic: Characteristic,
  si: number,
  unit = ownUnit(characteristic),
): string {
  if (unit === undefined) return String(Number(si.toPrecision(2)));
  return `${Number(inUnit(si, unit).toPrecision(2))} ${unit}`;
}

/** `2.4980 to 2.5000 in`, `max 0.0040 in`, `min 2.4980 in`. */
export function limitWords(
  characteristic: Characteristic,
  { lower, upper }: Limits,
  unit = ownUnit(characteristic),
): string {
  if (lower !== undefined && upper !== undefined)
    return `${bare(characteristic, lower, unit)} to ${shown(characteristic, upper, unit)}`;
  if (upper !== undefined) return `max ${shown(characteristic, upper, unit)}`;
  return lower !== undefined ? `min ${shown(characteristic, lower, unit)}` : 'no limits';
}

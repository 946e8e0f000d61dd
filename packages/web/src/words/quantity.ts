import type { Characteristic, Limits, Operand } from '@fettle/book';
import { expanded, inUnit, printQuantity, standardUncertainty, type Uncertain } from '@fettle/core';
import { unitOf } from '../state/units.ts';

/** Figures after the point with which a unit is printed when the sheet does not say. */
const DECIMALS: Readonly<Record<string, number>> = {
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

function decimalsOf(characteristic: Characteristic, unit: string): number {
  const own = unit === characteristic.unit ? characteristic.decimals : undefined;
  return own ?? DECIMALS[unit] ?? 4;
}

/** An SI number in the unit in which the characteristic is shown. */
export function shown(characteristic: Characteristic, si: number): string {
  const unit = unitOf(characteristic);
  if (unit === undefined) return `${Number(si.toPrecision(6))}`;
  return printQuantity(si, unit, decimalsOf(characteristic, unit));
}

/** The number alone, for a row that names the unit once. */
export function bare(characteristic: Characteristic, si: number): string {
  const unit = unitOf(characteristic);
  return unit === undefined
    ? `${Number(si.toPrecision(6))}`
    : inUnit(si, unit).toFixed(decimalsOf(characteristic, unit));
}

/** Half the band at about 95 %. */
export const halfBand = (q: Uncertain): number => expanded(q).U;

/** `2.4980 ±0.0002 in`, `4 to 5 thou`, `at least 3.0 thou`, `not known`. */
export function operandWords(characteristic: Characteristic, operand: Operand): string {
  if (operand.kind === 'missing') return 'not known';
  if (operand.kind === 'value') {
    const U = halfBand(operand.q);
    // One more figure for a doubt that would otherwise round to nothing.
    const doubt = bare(characteristic, U);
    const band =
      standardUncertainty(operand.q) === 0
        ? ''
        : ` ±${Number(doubt) === 0 ? significant(characteristic, U) : doubt}`;
    return shown(characteristic, operand.q.value).replace(/^([-\d.]+)/, `$1${band}`);
  }
  const { lower, upper } = operand;
  if (lower && upper) return `${bare(characteristic, lower.value)} to ${shown(characteristic, upper.value)}`;
  return lower
    ? `at least ${shown(characteristic, lower.value)}`
    : `under ${shown(characteristic, upper!.value)}`;
}

function significant(characteristic: Characteristic, si: number): string {
  const unit = unitOf(characteristic);
  return String(Number((unit === undefined ? si : inUnit(si, unit)).toPrecision(1)));
}

/** A doubt with two significant figures and its unit. */
export function uncertaintyWords(characteristic: Characteristic, si: number): string {
  const unit = unitOf(characteristic);
  if (unit === undefined) return String(Number(si.toPrecision(2)));
  return `${Number(inUnit(si, unit).toPrecision(2))} ${unit}`;
}

/** `2.4980 to 2.5000 in`, `at most 0.0040 in`, `at least 2.4980 in`. */
export function limitWords(characteristic: Characteristic, { lower, upper }: Limits): string {
  if (lower !== undefined && upper !== undefined)
    return `${bare(characteristic, lower)} to ${shown(characteristic, upper)}`;
  if (upper !== undefined) return `at most ${shown(characteristic, upper)}`;
  return lower !== undefined ? `at least ${shown(characteristic, lower)}` : 'no limits';
}

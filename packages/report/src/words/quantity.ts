import { type Characteristic, type Operand, quantityWords } from '@fettle/book';
import { expanded, inUnit, standardUncertainty } from '@fettle/core';
import { joined, unitSign } from './unit.ts';

export const { limitWords, shown } = quantityWords;
const { bare } = quantityWords;

const unitOf = ({ unit, kind }: Characteristic): string | undefined => (kind === 'seen' ? undefined : unit);

/** `2.4980 in`, `4.0 to 5.0 thou`, `at least 3.0 thou`, `not known`. */
export function valueWords(characteristic: Characteristic, operand: Operand): string {
  if (operand.kind === 'missing') return 'not known';
  if (operand.kind === 'value') return shown(characteristic, operand.q.value);
  const { lower, upper } = operand;
  if (lower && upper) return `${bare(characteristic, lower.value)} to ${shown(characteristic, upper.value)}`;
  return lower
    ? `at least ${shown(characteristic, lower.value)}`
    : `under ${shown(characteristic, upper!.value)}`;
}

/** `±0.0002 in (k = 2.00)` at about 95 %; empty for a bracket, whose edges say what is open. */
export function bandWords(characteristic: Characteristic, operand: Operand): string {
  if (operand.kind !== 'value' || standardUncertainty(operand.q) === 0) return '';
  const { U, k } = expanded(operand.q);
  return `±${twoFigures(characteristic, U)}, k = ${k.toFixed(2)}`;
}

/** A doubt rounded up to two figures, never to nothing. */
function twoFigures(characteristic: Characteristic, si: number): string {
  const unit = unitOf(characteristic);
  const value = unit === undefined ? si : inUnit(si, unit);
  const number = plain(Number(value.toPrecision(2)));
  return unit === undefined ? number : joined(number, unitSign(unit));
}

/** Without an exponent: nobody at a bench reads 1.5e-5. */
const plain = (value: number): string =>
  Math.abs(value) >= 1e-6 && Math.abs(value) < 1e6
    ? value.toFixed(Math.max(0, Math.min(8, 1 - Math.floor(Math.log10(Math.abs(value))))))
    : String(value);

import { printQuantity } from '@fettle/core';
import type { CautionOver } from '../oil/circuit-cautions.ts';

/** A caution of the circuit, with the conditions at which it holds where those are not all. */
export function circuitCautionWords({ message, at, of }: CautionOver): string {
  const [first] = at;
  if (!first || at.length === of) return message;
  const where = `${printQuantity(first.temperature, 'degC', 0)} and ${printQuantity(first.speed, 'rpm', 0)}`;
  return at.length === 1
    ? `At ${where}: ${message}`
    : `At ${at.length} of ${of} conditions, ${where} among them: ${message}`;
}

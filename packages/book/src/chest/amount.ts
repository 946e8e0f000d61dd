import { inUnit, kindsOf, parseQuantity, type QuantityKind, unitsOfKind } from '@fettle/core';

/** An amount of doubt: of a quantity, or as a share of what is read. */
export interface Amount {
  /** `ratio` for a share of the reading. */
  readonly kind: QuantityKind;
  /** SI of the kind; a temperature as a difference [K]. */
  readonly value: number;
  readonly unit: string;
}

const unitIn = (text: string): string => text.trim().replace(/^[-+−]?[\d.,/\s]+/, '');

/** Reads `0.0002 in`, `3 %`, `1 K`; undefined for what is no amount with its unit. */
export function amountOf(text: string): Amount | undefined {
  const unit = unitIn(text);
  if (unit === '%') {
    const share = parseQuantity(text, 'ratio');
    return share.ok ? { kind: 'ratio', value: share.value.value, unit } : undefined;
  }
  // A difference of temperatures: where the scale begins does not matter.
  const degrees = /^\s*([-+\d.]+)\s*(K|°C|degC)\s*$/.exec(text);
  if (degrees) return { kind: 'temperature', value: Number(degrees[1]), unit: 'K' };
  for (const kind of kindsOf(unit)) {
    // A gram is meant, not the pull of the earth.
    const read = kind === 'ratio' || kind === 'acceleration' ? undefined : parseQuantity(text, kind);
    if (read?.ok) return { kind, value: read.value.value, unit: read.value.unit };
  }
  return undefined;
}

/** An amount with three significant figures, as the ledger keeps it. */
export function amountText(value: number, kind: QuantityKind, unit: string): string {
  if (kind === 'ratio') return `${Number((value * 100).toPrecision(3))} %`;
  if (kind === 'temperature') return `${Number(value.toPrecision(3))} K`;
  const known = unitsOfKind(kind).some(({ name }) => name === unit);
  const size = Number(inUnit(value, known ? unit : unitsOfKind(kind)[0]!.name).toPrecision(3));
  // No exponents: a person reads this.
  return `${size.toFixed(12).replace(/\.?0+$/, '')} ${unit}`;
}

import { parseQuantity, type QuantityKind, type Term, term } from '@fettle/core';
import type { Written } from '../fold/book.ts';

/**
 * The doubt an instrument puts into one reading, as two terms: the share common to all its readings, which cancels
 * in a difference and adds in a stack, and each reading's own.
 *
 * @param value    as read [SI of kind]
 * @param reading  id of the entry, which names the reading's own share
 * @returns        undefined when the instrument's uncertainty does not fit the kind of quantity
 */
export function instrumentTerms(
  instrument: Written<'instrument-declared'>,
  kind: QuantityKind,
  value: number,
  reading: string,
): readonly Term[] | undefined {
  const u = standardUncertaintyOf(instrument, kind, value);
  if (u === undefined) return undefined;
  const { common_share: share } = instrument.body.uncertainty;
  return [
    term(`instrument:${instrument.body.instrument}`, u * Math.sqrt(share)),
    term(`reading:${reading}`, u * Math.sqrt(1 - share)),
  ].filter(({ u }) => u !== 0);
}

/** u of one reading [SI of kind]: a quantity, or a share of what is read. */
export function standardUncertaintyOf(
  instrument: Written<'instrument-declared'>,
  kind: QuantityKind,
  value: number,
): number | undefined {
  const { expanded, coverage } = instrument.body.uncertainty;
  if (expanded.trim().endsWith('%')) {
    const share = parseQuantity(expanded, 'ratio');
    return share.ok ? (Math.abs(value) * share.value.value) / coverage : undefined;
  }
  // A thermometer's "1 degC" is a difference: the zero of the scale must not come into it.
  if (kind === 'temperature') {
    const degrees = /^([\d.]+)\s*(°C|degC|K)$/.exec(expanded.trim());
    return degrees ? Number(degrees[1]) / coverage : undefined;
  }
  const U = parseQuantity(expanded, kind);
  return U.ok ? U.value.value / coverage : undefined;
}

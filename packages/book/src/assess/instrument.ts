import { parseQuantity, type QuantityKind, type Term, term } from '@fettle/core';
import { stackedDoubt } from '../chest/stacked.ts';
import type { Book, Written } from '../fold/book.ts';

/**
 * The doubt an instrument puts into one reading: the share common to all its readings, which cancels in a difference
 * and adds in a stack, and each reading's own. Of an instrument that was set in another or is read by it, the other's
 * common error is part of the common share, under the other's name: between the two it cancels.
 *
 * @param value    as read [SI of kind]
 * @param reading  id of the entry, which names the reading's own share
 * @returns        undefined when the instrument's uncertainty does not fit the kind of quantity
 */
export function instrumentTerms(
  instruments: Book['instruments'],
  instrument: Written<'instrument-declared'>,
  kind: QuantityKind,
  value: number,
  reading: string,
): readonly Term[] | undefined {
  const u = standardUncertaintyOf(instrument, kind, value);
  if (u === undefined) return undefined;
  const { set_in: setter, instrument: id, uncertainty } = instrument.body;
  const other = instruments.get(setter ?? '');
  const uOther = (other && standardUncertaintyOf(other, kind, value)) ?? 0;
  const lent = Math.min(u ** 2, uOther ** 2 * (other?.body.uncertainty.common_share ?? 0));
  const common = Math.max(0, u ** 2 * uncertainty.common_share - lent);
  const own = Math.max(0, u ** 2 - common - lent);
  return [
    term(`instrument:${setter}`, Math.sqrt(lent)),
    term(`instrument:${id}`, Math.sqrt(common)),
    term(`reading:${reading}`, Math.sqrt(own), 'normal', uncertainty.own_dof),
  ].filter(({ u }) => u !== 0);
}

/**
 * The doubt of leaves laid together, read as one: what each of them alone would put in, and what lies between them.
 *
 * @param leaves  thickness of each [m]
 */
export function stackTerms(
  instruments: Book['instruments'],
  instrument: Written<'instrument-declared'>,
  leaves: readonly number[],
  reading: string,
): readonly Term[] | undefined {
  const each = leaves.map((leaf) => instrumentTerms(instruments, instrument, 'length', leaf, reading));
  if (each.some((terms) => terms === undefined)) return undefined;
  const all = each.flatMap((terms) => terms ?? []);
  const own = `reading:${reading}`;
  const commons = [...new Set(all.map(({ source }) => source))].filter((source) => source !== own);
  const sumOf = (source: string): number =>
    all.filter((one) => one.source === source).reduce((sum, { u }) => sum + u, 0);
  const { own: uOwn } = stackedDoubt(
    all.filter(({ source }) => source === own).map(({ u }) => ({ common: 0, own: u })),
  );
  return [
    ...commons.map((source) => term(source, sumOf(source))),
    term(own, uOwn, 'normal', instrument.body.uncertainty.own_dof),
  ];
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

import {
  type Caution,
  exact,
  parseQuantity,
  type QuantityKind,
  standardUncertainty,
  term,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import type { Book, ReadingOnRecord } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { instrumentUnsaidWords, notCorrectedWords } from '../words/temperature-cautions.ts';
import { atTwenty, isAwayFromTwenty, kelvins, unsaidOf } from './at-twenty.ts';
import { expansionOf, STEEL } from './expansion.ts';
import { instrumentTerms, stackTerms } from './instrument.ts';
import { interval, type Operand, valued } from './operand.ts';

/**
 * What one reading says, in SI at 20 °C, with its doubt: none where it does not read.
 * A number is a value; feeler leaves are an interval whose edges carry the leaves' own doubt.
 */
export function readOut(book: Book, characteristic: Characteristic, reading: ReadingOnRecord): Operand[] {
  const { kind } = characteristic;
  if (kind === 'seen') return [];
  const said = (text: string | undefined, stack?: readonly string[]): Uncertain | undefined => {
    if (text === undefined) return undefined;
    const read = parseQuantity(text, kind);
    const instrument = book.instruments.get(reading.body.instrument);
    if (!read.ok || !instrument) return undefined;
    const { value } = read.value;
    const laid = (stack ?? []).flatMap((leaf) => {
      const one = parseQuantity(leaf, 'length');
      return one.ok ? [one.value.value] : [];
    });
    const terms =
      kind === 'length' && laid.length > 1
        ? stackTerms(book.instruments, instrument, laid, reading.entry.id)
        : instrumentTerms(book.instruments, instrument, kind, value, reading.entry.id);
    const q = terms && corrected(reading, kind, uncertain(value, ...terms));
    return q && atTwenty(book, characteristic, reading, q);
  };
  if (reading.body.value !== undefined) {
    const q = said(reading.body.value);
    return q ? [valued(q)] : [];
  }
  const goes = said(reading.body.goes, reading.body.goes_stack);
  const stops = said(reading.body.stops, reading.body.stops_stack);
  const edges = interval(goes, reading.body.drags && goes ? filled(goes, stops) : stops);
  return edges.kind === 'interval' ? [withFloor(edges)] : [];
}

/** With what was found to be added to it, whose doubt is common to all that is corrected by it. */
function corrected({ correction }: ReadingOnRecord, kind: QuantityKind, q: Uncertain): Uncertain | undefined {
  if (!correction) return q;
  const [add, doubt] = [parseQuantity(correction.add, kind), parseQuantity(correction.doubt, kind)];
  if (!add.ok || !doubt.ok) return undefined;
  const common = term(`correction:${correction.check}`, doubt.value.value / 2);
  return uncertain(q.value + add.value.value, ...q.terms, common);
}

/**
 * A leaf that drags fills its gap: the gap is no wider than the leaf and what the feel of it leaves open, twice the
 * leaf's own standard uncertainty. Common practice, no source. A leaf that stops sooner says more.
 */
function filled(leaf: Uncertain, stops: Uncertain | undefined): Uncertain {
  const widest = uncertain(leaf.value + 2 * standardUncertainty(leaf), ...leaf.terms);
  return stops && stops.value < widest.value ? stops : widest;
}

/** No leaf went: the gap is not below nothing. */
function withFloor(edges: { lower?: Uncertain; upper?: Uncertain }): Operand {
  return interval(edges.lower ?? exact(0), edges.upper);
}

/** What its temperature leaves to be said of a reading: nothing where none was said, or all of it was and is reckoned. */
export function readingCautions(
  book: Book,
  characteristic: Characteristic,
  reading: ReadingOnRecord,
): Caution[] {
  if (characteristic.kind !== 'length' || !isAwayFromTwenty(reading)) return [];
  const { temperature, value, goes, stops } = reading.body;
  if (expansionOf(book, characteristic)) {
    const unsaid = unsaidOf(reading);
    const said = unsaid === 'part' ? temperature?.instrument : temperature?.part;
    return unsaid && said
      ? [{ code: 'temperature/half-said', message: instrumentUnsaidWords(unsaid, said) }]
      : [];
  }
  const size = parseQuantity(value ?? goes ?? stops ?? '', 'length');
  // Both steel: what they have in common cancels.
  const apart = (kelvins(temperature?.part) ?? 293.15) - (kelvins(temperature?.instrument) ?? 293.15);
  const shift = size.ok ? -size.value.value * STEEL * apart : 0;
  return [
    { code: 'temperature/not-corrected', message: notCorrectedWords(characteristic, temperature!, shift) },
  ];
}

import {
  exact,
  parseQuantity,
  propagated,
  type QuantityKind,
  standardUncertainty,
  term,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import type { Book, ReadingOnRecord } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { instrumentTerms, stackTerms, standardUncertaintyOf } from './instrument.ts';
import { interval, type Operand, valued } from './operand.ts';

/** Mean linear expansion of a steel instrument [1/K]. @source common handbook value for carbon steel, GUM H.1 uses it */
const STEEL = 11.5e-6;
/** Share by which a tabulated expansion may be off; assumed. */
const EXPANSION_DOUBT = 0.05;
/** Standard uncertainty of a temperature when no thermometer is declared [K]; assumed, and wide on purpose. */
const THERMOMETER_U = 1;
const REFERENCE = 293.15;

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
    return q && atTwenty(book, characteristic, reading, kind, q);
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

/**
 * A length read away from 20 °C, brought there: L20 = L (1 + α_s (t_s − 20)) / (1 + α_p (t_p − 20)).
 * Without a temperature on the reading, or without an expansion on the sheet, it is taken as read.
 *
 * @source iso-1 for the 20 °C
 */
function atTwenty(
  book: Book,
  characteristic: Characteristic,
  reading: ReadingOnRecord,
  kind: QuantityKind,
  q: Uncertain,
): Uncertain {
  const { temperature } = reading.body;
  const expansion =
    characteristic.expansion === undefined ? undefined : parseQuantity(characteristic.expansion, 'expansion');
  if (kind !== 'length' || !temperature || !expansion?.ok) return q;
  const thermometer = [...book.instruments.values()].find(({ body }) => body.type === 'thermometer');
  const u = (thermometer && standardUncertaintyOf(thermometer, 'temperature', REFERENCE)) ?? THERMOMETER_U;
  const degrees = (text: string | undefined): Uncertain => {
    const read = text === undefined ? undefined : parseQuantity(text, 'temperature');
    return read?.ok ? uncertain(read.value.value, term('thermometer', u)) : exact(REFERENCE);
  };
  const alpha = expansion.value.value;
  return propagated(
    ([length, part, own, a]) => (length! * (1 + STEEL * (own! - REFERENCE))) / (1 + a! * (part! - REFERENCE)),
    [
      q,
      degrees(temperature.part),
      degrees(temperature.instrument),
      uncertain(alpha, term(`expansion:${characteristic.id}`, alpha * EXPANSION_DOUBT)),
    ],
  );
}

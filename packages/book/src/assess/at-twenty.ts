import {
  exact,
  inUnit,
  parseQuantity,
  propagated,
  type Term,
  term,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import type { Book, ReadingOnRecord } from '../fold/book.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { expansionOf, INSTRUMENT_EXPANSION } from './expansion.ts';
import { instrumentTerms } from './instrument.ts';

/** Standard uncertainty of a temperature when no thermometer is declared [K]; assumed, and wide on purpose. */
const THERMOMETER_U = 1;
const REFERENCE = 293.15;
/** What is said to be at 20 °C is. */
const SAME = 0.05;

/** A temperature as said [K]; undefined where none is, or it does not read. */
export function kelvins(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (text === last.text) return last.kelvins;
  const read = parseQuantity(text, 'temperature');
  last = { text, kelvins: read.ok ? read.value.value : undefined };
  return last.kelvins;
}

/** One temperature is said of many readings in a row. */
let last: { readonly text: string; readonly kelvins: number | undefined } = { text: '', kelvins: undefined };

/** Whether part or instrument was said to be at another temperature than the one sizes are stated at. */
export const isAwayFromTwenty = ({ body: { temperature } }: ReadingOnRecord): boolean =>
  [temperature?.part, temperature?.instrument].some(
    (text) => Math.abs((kelvins(text) ?? REFERENCE) - REFERENCE) > SAME,
  );

/** The one of the two whose temperature was not said although the other's was, and is not 20 °C. */
export function unsaidOf(reading: ReadingOnRecord): 'part' | 'instrument' | undefined {
  const { part, instrument } = reading.body.temperature ?? {};
  if (!isAwayFromTwenty(reading)) return undefined;
  return part === undefined ? 'part' : instrument === undefined ? 'instrument' : undefined;
}

/**
 * A length read away from 20 °C, brought there: L20 = L (1 + α_s (t_s − 20)) / (1 + α_p (t_p − 20)).
 * Without a temperature on the reading, or without an expansion on the sheet, it is taken as read.
 *
 * @source iso-1 for the 20 °C; jcgm-100 H.1 for scale and part each with its temperature and its expansion
 */
export function atTwenty(
  book: Book,
  characteristic: Characteristic,
  reading: ReadingOnRecord,
  q: Uncertain,
): Uncertain {
  if (characteristic.kind !== 'length' || !reading.body.temperature) return q;
  const expansion = expansionOf(book, characteristic);
  if (!expansion) return q;
  return propagated(
    ([length, part, own, a, s]) => (length! * (1 + s! * (own! - REFERENCE))) / (1 + a! * (part! - REFERENCE)),
    [
      q,
      temperatureOf(book, reading, 'part'),
      temperatureOf(book, reading, 'instrument'),
      expansion.alpha,
      INSTRUMENT_EXPANSION,
    ],
  );
}

/**
 * The temperature of part or instrument [K]. One temperature said of one thing is one reading of the thermometer,
 * however many sizes are read at it: its own error is shared by them. Where only the other's was said it lies anywhere
 * between that and 20 °C, and for all readings with that instrument alike.
 *
 * @source jcgm-100 4.3.7 for a quantity of which only bounds are known
 */
function temperatureOf(book: Book, { body }: ReadingOnRecord, which: 'part' | 'instrument'): Uncertain {
  const { part, instrument } = body.temperature ?? {};
  const [text, other] = which === 'part' ? [part, instrument] : [instrument, part];
  const thing = which === 'part' ? (body.state ?? body.characteristic) : body.instrument;
  const said = kelvins(text);
  if (said !== undefined)
    return uncertain(said, ...thermometerTerms(book, said, `${which}:${thing}:${text}`));
  const bound = kelvins(other);
  if (bound === undefined || bound === REFERENCE) return exact(REFERENCE);
  const u = Math.abs(bound - REFERENCE) / (2 * Math.sqrt(3));
  return uncertain(
    (bound + REFERENCE) / 2,
    term(`temperature-unsaid:${which}:${thing}:${other}`, u, 'rectangular'),
  );
}

/** What the thermometer may be off by: the same at all its readings, and at each for itself. */
function thermometerTerms(book: Book, value: number, key: string): readonly Term[] {
  const thermometer = [...book.instruments.values()].find(({ body }) => body.type === 'thermometer');
  const terms = thermometer && instrumentTerms(book.instruments, thermometer, 'temperature', value, key);
  const half = THERMOMETER_U * Math.SQRT1_2;
  return (terms ?? [term('thermometer', half), term(`reading:${key}`, half)]).map((one) =>
    one.source === `reading:${key}` ? { ...one, source: `temperature:${key}` } : one,
  );
}

/** `6 °C`, as far as it reads. */
export function degreesWords(text: string): string {
  const read = kelvins(text);
  return read === undefined ? text : `${Number(inUnit(read, 'degC').toFixed(1))} °C`;
}

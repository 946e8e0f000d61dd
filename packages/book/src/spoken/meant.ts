import { parseQuantity } from '@fettle/core';
import { limitsOf } from '../assess/limits.ts';
import type { Book } from '../fold/book.ts';
import { axisValues, type Place, placesOf } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { Heard } from './heard.ts';

/** Words that say nothing of what was measured. */
const FILLING = new Set('the a an of is at reads read on to it and says number no. measured with'.split(' '));

/** How a characteristic would explain what was said of the place and the thing. */
export interface Meant {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly measurand?: string;
  /** How well the words fit; only for comparing. */
  readonly fit: number;
}

const plain = (word: string): string => word.toLowerCase().replace(/[^a-z0-9]+/g, '');

const wordsOf = ({ name, id }: Characteristic): string[] =>
  `${name} ${id.replace(/[.-]/g, ' ')}`
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');

/** Whether one word is the other or its plural. */
const alike = (said: string, word: string): boolean =>
  said === word || `${said}s` === word || said === `${word}s` || said === `${word}es`;

/**
 * Explains every word as an axis, a place on it, a way of reading, or part of the characteristic's name.
 *
 * @returns nothing where a word is left over
 */
export function meantBy(
  book: Book,
  characteristic: Characteristic,
  said: readonly Heard[],
): Meant | undefined {
  const sheet = book.sheet ?? { axes: {} };
  const names = wordsOf(characteristic);
  const place: Record<string, string> = {};
  let measurand: string | undefined;
  let fit = 0;
  let expected: string | undefined;
  for (const one of said) {
    if (one.is !== 'word' && one.is !== 'whole') continue;
    const text = one.text;
    if (FILLING.has(text)) continue;
    const axis = characteristic.places.find((name) => alike(plain(text), plain(name)));
    const named = one.is === 'word' && names.some((word) => alike(text, word));
    if (named) fit += 2;
    if (axis !== undefined && place[axis] === undefined) {
      fit += 1;
      expected = axis;
      continue;
    }
    const open = [
      ...(expected === undefined ? [] : [expected]),
      ...characteristic.places.filter((name) => name !== expected),
    ].filter((name) => place[name] === undefined);
    const home = open.find((name) =>
      axisValues(sheet, characteristic, name).some((value) => plain(value) === plain(text)),
    );
    if (home !== undefined && !(named && expected === undefined && one.is === 'word')) {
      place[home] = axisValues(sheet, characteristic, home).find((value) => plain(value) === plain(text))!;
      fit += 1;
      expected = undefined;
      continue;
    }
    const way = Object.keys(characteristic.read_as ?? {}).find((key) => key.split('-').includes(text));
    if (way !== undefined) {
      measurand = way;
      fit += 1;
      continue;
    }
    if (!named) return undefined;
  }
  return { characteristic, place, fit, ...(measurand !== undefined && { measurand }) };
}

/** How well numbers sit in the limits of a characteristic: 1 inside or near, −2 far off, 0 where nothing is known. */
export function nearness(
  characteristic: Characteristic,
  values: readonly string[],
  unit: string | undefined,
): number {
  if (characteristic.kind === 'seen') return 0;
  const { kind } = characteristic;
  const limits = limitsOf(characteristic, 'new', undefined) ?? limitsOf(characteristic, 'wear', undefined);
  const numbers = values.flatMap((text) => {
    const read = parseQuantity(
      /[a-z]/i.test(text) ? text : `${text} ${unit ?? characteristic.unit ?? ''}`,
      kind,
    );
    return read.ok ? [read.value.value] : [];
  });
  if (numbers.length < values.length) return -2;
  const { lower, upper } = limits ?? {};
  const size = upper ?? lower;
  if (size === undefined || size <= 0) return 0;
  return numbers.every((value) => value > (lower ?? 0) * 0.9 && value < (upper ?? size) * 1.5) ? 1 : -2;
}

/** The places a phrase leaves open, in bench order. */
export const placesLeft = (book: Book, { characteristic, place }: Meant): Place[] =>
  placesOf(book.sheet ?? { axes: {} }, characteristic).filter((one) =>
    Object.entries(place).every(([axis, value]) => one[axis] === value),
  );

import {
  type Assessed,
  type Book,
  type Characteristic,
  type Gate,
  limitsOf,
  nextMoveWords,
  type Place,
  placeText,
  positionAt,
  readAgain,
} from '@fettle/book';
import { placeWords, whenWords } from '../words/entry.ts';
import { limitWords } from '../words/quantity.ts';
import { unitSign } from '../words/unit.ts';
import { type BoxGrid, boxGrid } from './box-grid.ts';
import type { Printing } from './cover-page.ts';
import { lineName } from './line-names.ts';
import { type Unmeasured, unmeasured } from './unmeasured.ts';

const unitWords = ({ kind, unit }: Characteristic): string =>
  kind === 'seen' || unit === undefined ? '' : unitSign(unit);

/** The size the part fitted there is made to, which moves the limits. */
function sizeOf(book: Book, characteristic: Characteristic, place: Place) {
  if (characteristic.position === undefined) return undefined;
  const fitted = book.positions.get(positionAt(characteristic.position, place))?.now;
  return fitted && book.parts.get(fitted.part)?.states.find(({ id }) => id === fitted.state)?.size;
}

/** The limits, which carry the unit; where there are none, the unit to write in. */
function limitLine(book: Book, characteristic: Characteristic, place: Place): string {
  if (characteristic.kind === 'seen')
    return characteristic.wanted === undefined ? '' : `wanted: ${characteristic.wanted}`;
  const size = sizeOf(book, characteristic, place);
  const sets = (['new', 'wear'] as const).flatMap((set) => {
    const limits = limitsOf(characteristic, set, size);
    return limits ? [{ set, words: limitWords(characteristic, limits) }] : [];
  });
  if (sets.length === 0) {
    const unit = unitWords(characteristic);
    return unit === '' ? '' : `[${unit}]`;
  }
  return sets.map(({ set, words }) => (sets.length === 1 ? words : `${set} ${words}`)).join(', ');
}

interface WallRow extends BoxGrid {
  readonly line: string;
  readonly name: string;
  readonly limits: string;
  readonly with: string;
  readonly seen: boolean;
  readonly measurand: string;
  /** Every place with a box, as it is written at the bench. */
  readonly boxes: readonly string[];
  /** Where it was read and nobody can tell: what to try next. */
  readonly again: string;
  /** The widest figure that is asked for, in digits with its point. */
  readonly digits: number;
  /** Next, or what the nearest cover waits for: it stands on the first page whatever else does not. */
  readonly first: boolean;
}

/** What a row is for: places not read, or to be read again. */
interface Wanted extends Pick<Unmeasured, 'characteristic' | 'places'> {
  readonly again?: string;
}

/** Never fewer than somebody writes into any box; a length that nothing is said of may have as many as 12.345. */
const LEAST_DIGITS = 4;
const DIGITS_OF_LENGTH = 6;

/** The longest figure of the limits and of what was read there before, with its point. */
function digitsAsked(book: Book, { id, kind }: Characteristic, limits: string): number {
  const read = book.readings.flatMap(({ body }) => (body.characteristic === id ? [body.value ?? ''] : []));
  const figures = [limits, ...read].flatMap((words) => words.match(/\d*\.?\d+/g) ?? []);
  const least = kind === 'length' && figures.length === 0 ? DIGITS_OF_LENGTH : LEAST_DIGITS;
  return Math.max(least, ...figures.map(({ length }) => length));
}

/** Places to be read again, by what and with what. */
function wantedAgain(book: Book, judgements: readonly Assessed[]): Wanted[] {
  const rows = new Map<string, { characteristic: Characteristic; places: Place[]; again: string }>();
  for (const { characteristic, place, judgement, move } of readAgain(book, judgements)) {
    const again = nextMoveWords.againWords(judgement, move);
    const key = `${characteristic.id} ${again}`;
    const row = rows.get(key) ?? { characteristic, places: [], again };
    row.places.push(place);
    rows.set(key, row);
  }
  const bench = (axes: readonly string[]) => (a: Place, b: Place) => {
    for (const axis of axes) {
      const order = book.sheet?.axes[axis] ?? [];
      const apart = order.indexOf(a[axis] ?? '') - order.indexOf(b[axis] ?? '');
      if (apart !== 0) return apart;
    }
    return 0;
  };
  return [...rows.values()].map((row) => ({
    ...row,
    places: [
      ...new Map(
        row.places
          .sort(bench(row.characteristic.places))
          .map((place) => [placeText(place, row.characteristic.places), place]),
      ).values(),
    ],
  }));
}

/** Both kinds in the order of the sheet, as the bench goes through them. */
function allWanted(book: Book, judgements: readonly Assessed[]): Wanted[] {
  const order = new Map([...book.characteristics.keys()].map((id, i) => [id, i]));
  return [...unmeasured(book, judgements), ...wantedAgain(book, judgements)].sort(
    (a, b) => order.get(a.characteristic.id)! - order.get(b.characteristic.id)!,
  );
}

/** More lines than these are not sure to stand in one column. */
const MOST_LINES = 20;

/** One row, or several where it has more lines than a column. */
function wallRows(book: Book, { characteristic, places, again = '' }: Wanted, first: boolean): WallRow[] {
  const boxes = places.map((place) => placeWords(place, characteristic.places));
  // What is seen is written in words, which need a box of the full width.
  const { lines, ...grid } =
    characteristic.kind === 'seen'
      ? { heads: [], down: '', lines: boxes.map((box) => ({ name: '', boxes: [box] })) }
      : boxGrid(places, characteristic.places);
  const limits = limitLine(book, characteristic, places[0]!);
  const row = {
    line: lineName(book, characteristic),
    limits,
    with: characteristic.kind === 'seen' || again !== '' ? '' : (characteristic.with ?? ''),
    again,
    digits: digitsAsked(book, characteristic, limits),
    seen: characteristic.kind === 'seen',
    measurand:
      characteristic.ask_measurand === true
        ? Object.keys(characteristic.read_as ?? {})
            .concat(characteristic.measurand)
            .join(' or ')
            .replaceAll('-', ' ')
        : '',
    first,
    ...grid,
  };
  const rows: WallRow[] = [];
  let before = 0;
  for (let k = 0; k < lines.length; k += MOST_LINES) {
    const own = lines.slice(k, k + MOST_LINES);
    const count = own.flatMap((line) => line.boxes).filter((box) => box !== null).length;
    rows.push({
      ...row,
      name: `${characteristic.name}${k === 0 ? '' : ', continued'}`,
      lines: own,
      boxes: boxes.slice(before, before + count),
    });
    before += count;
  }
  return rows;
}

/** The cover that goes on next, and what has to be read for it. */
function nearest(gates: readonly Gate[], judgements: readonly Assessed[]) {
  const gate = gates.find(({ closed, reasons }) => !closed && reasons.some(isUnread));
  if (!gate) return undefined;
  const about = new Set(gate.reasons.filter(isUnread).map((reason) => reason.about));
  const missing = judgements
    .filter(({ characteristic, place }) => about.has(aboutOf(characteristic, place)))
    .flatMap((judgement) => judgement.missing.map((one) => one.characteristic));
  return { name: gate.cover.name, waitsFor: new Set(missing) };
}

const isUnread = ({ code }: Gate['reasons'][number]): boolean => code === 'reading/missing';

const aboutOf = (characteristic: Characteristic, place: Place): string => {
  const at = placeWords(place);
  return at === '' ? characteristic.id : `${characteristic.id}@${at}`;
};

/** Rows under the part of the engine that the sheet puts them to. */
function byGroup(book: Book, waiting: readonly Wanted[], first: (id: string, i: number) => boolean) {
  const groups = new Map<string, WallRow[]>();
  for (const [i, one] of waiting.entries()) {
    const name = one.characteristic.group ?? '';
    groups.set(name, [...(groups.get(name) ?? []), ...wallRows(book, one, first(one.characteristic.id, i))]);
  }
  return [...groups].map(([name, rows]) => ({ name, rows }));
}

/** What is still to be measured, in the order of the screen, with a box to write in for each place. */
export function wallPages(
  book: Book,
  judgements: readonly Assessed[],
  gates: readonly Gate[],
  { printedAt }: Printing,
) {
  const waiting = allWanted(book, judgements);
  const isOptional = ({ characteristic }: Wanted): boolean => characteristic.optional === true;
  const cover = nearest(gates, judgements);
  return {
    title: book.opened?.body.title ?? 'A job without a title',
    engine: book.sheet?.title ?? 'no spec sheet here',
    job: book.job,
    printed: whenWords(printedAt),
    cover: cover?.name ?? '',
    needed: byGroup(
      book,
      waiting.filter((one) => !isOptional(one)),
      (id, i) => i === 0 || cover?.waitsFor.has(id) === true,
    ),
    optional: byGroup(book, waiting.filter(isOptional), () => false),
  };
}

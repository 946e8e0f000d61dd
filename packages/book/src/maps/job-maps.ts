import { type DiameterAt, fittedOval, type Oval } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import type { Member } from '../assess/judgement.ts';
import { limitsOf } from '../assess/limits.ts';
import type { Operand } from '../assess/operand.ts';
import type { Answer } from '../assess/verdict.ts';
import type { Book } from '../fold/book.ts';
import { axisValues, type Place, placesOf, placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';

/** One box of a map; without an operand it has not been measured. */
export interface PlaceCell {
  readonly place: Place;
  readonly operand?: Operand;
  /** From as new, with its sign [SI]; undefined where either is not known. */
  readonly off?: number;
  /** 0 to 4, the darker the farther from as new. */
  readonly shade?: number;
  readonly verdict?: Answer;
  /** The place by which its part is judged. */
  readonly worst: boolean;
  /** The place of its part farthest from as new, where another place decides. */
  readonly farthest?: true;
}

/** A greatest difference between two places of one strip, and which two. */
export interface Spread {
  readonly value: number;
  readonly greatest: Place;
  readonly least: Place;
}

/** One bore or journal, cut open and laid flat: by row, then by column. */
export interface MapStrip {
  readonly value?: string;
  readonly cells: readonly (readonly PlaceCell[])[];
  /** The greatest range down one column, where rows go along the part. */
  readonly taper?: Spread;
  /** The greatest range across one row, where columns go round the part. */
  readonly outOfRound?: Spread;
  /** The oval nearest to the diameters of a row, where four directions or more say their angle: the most oval row. */
  readonly oval?: Oval & { readonly row: string };
}

export interface JobMap {
  readonly characteristic: Characteristic;
  /** Names of the axes. */
  readonly strip?: string;
  readonly row: string;
  readonly column: string;
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  readonly strips: readonly MapStrip[];
  /** What a new part would measure [SI]. */
  readonly meant?: number;
  /** The place farthest from as new. */
  readonly farthest?: PlaceCell;
  readonly measured: number;
  /** Of them those with a number, not an interval. */
  readonly valued: number;
  readonly places: number;
}

const ROUND: readonly string[] = ['axis', 'turn', 'direction'];
const ALONG: readonly string[] = ['height', 'end', 'section'];
const SHADES = 5;

/** Strip, row and column by the names of the axes, else in the order of the sheet. */
function layout(axes: readonly string[]): { strip?: string; row: string; column: string } | undefined {
  const [first, second, third] = axes;
  if (first === undefined || second === undefined || axes.length > 3) return undefined;
  const column = axes.find((axis) => ROUND.includes(axis)) ?? axes.at(-1)!;
  const others = axes.filter((axis) => axis !== column);
  if (third === undefined) return { row: others[0]!, column };
  const row = others.find((axis) => ALONG.includes(axis)) ?? others[1]!;
  return { strip: others.find((axis) => axis !== row)!, row, column };
}

/**
 * As new: the target or the middle of the limits for new parts, or their lower one alone. What has an upper limit only,
 * as wear and taper have, would be nothing at all.
 */
function meantNew(characteristic: Characteristic, size?: string): number | undefined {
  const limits = limitsOf(characteristic, 'new', size) ?? limitsOf(characteristic, 'wear', size);
  if (!limits) return undefined;
  const { lower, upper, target } = limits;
  if (upper !== undefined && lower === undefined) return target ?? 0;
  if (characteristic.limits?.new === undefined) return undefined;
  return target ?? (upper === undefined ? lower : (lower! + upper) / 2);
}

export const figureOf = (cell: PlaceCell | undefined): number | undefined =>
  cell?.operand?.kind === 'value' ? cell.operand.q.value : undefined;

/** Every place of a characteristic with what is known there, by its short writing. */
export function cellsOf(
  book: Book,
  characteristic: Characteristic,
  judgements: readonly Assessed[],
): ReadonlyMap<string, PlaceCell> {
  const axes = characteristic.places;
  const own = judgements.filter((one) => one.characteristic.id === characteristic.id);
  const found = new Map<string, { member: Member; judgement: Assessed }>();
  for (const judgement of own)
    for (const member of judgement.members)
      if (member.known.operand.kind !== 'missing')
        found.set(placeText(member.place, axes), { member, judgement });
  const offOf = ({ member: { known }, judgement }: { member: Member; judgement: Assessed }) => {
    const meant = meantNew(characteristic, judgement.states.find(({ size }) => size !== undefined)?.size);
    return meant === undefined || known.operand.kind !== 'value' ? undefined : known.operand.q.value - meant;
  };
  const farthest = new Set(
    own.flatMap((judgement) => {
      const decides = judgement.worstAt && placeText(judgement.worstAt, axes);
      const [key, one] = [...found]
        .filter(([, at]) => at.judgement === judgement)
        .sort(([, a], [, b]) => Math.abs(offOf(b) ?? 0) - Math.abs(offOf(a) ?? 0))[0] ?? [
        undefined,
        undefined,
      ];
      const off = one && offOf(one);
      const decided = decides === undefined ? undefined : found.get(decides);
      // A place as far off as the one that decides is not farther.
      const isFarther = off !== undefined && decided && Math.abs(off) > Math.abs(offOf(decided) ?? 0);
      return isFarther && key !== decides ? [key] : [];
    }),
  );
  const most = Math.max(0, ...[...found.values()].map((one) => Math.abs(offOf(one) ?? 0)));
  return new Map(
    placesOf(book.sheet ?? { axes: {} }, characteristic).map((place) => {
      const key = placeText(place, axes);
      const at = found.get(key);
      if (!at) return [key, { place, worst: false }];
      const { member, judgement } = at;
      const off = offOf(at);
      const verdict = judgement.governing && member.verdicts[judgement.governing]?.verdict;
      const cell: PlaceCell = {
        place,
        operand: member.known.operand,
        ...(off !== undefined && {
          off,
          shade: most > 0 ? Math.min(SHADES - 1, Math.floor((Math.abs(off) / most) * SHADES)) : 0,
        }),
        ...(verdict && { verdict }),
        worst: judgement.worstAt !== undefined && placeText(judgement.worstAt, axes) === key,
        ...(farthest.has(key) && { farthest: true as const }),
      };
      return [key, cell];
    }),
  );
}

/** The most oval of the rows; none where too few directions are read or their names are no angles. */
function ovalOf(
  rows: readonly string[],
  columns: readonly string[],
  table: readonly (readonly PlaceCell[])[],
): MapStrip['oval'] {
  const angles = columns.map((column) =>
    /^\d+(\.\d+)?$/.test(column) ? (Number(column) * Math.PI) / 180 : Number.NaN,
  );
  return table
    .flatMap((line, r) => {
      const found = fittedOval(
        line.flatMap((cell, c): DiameterAt[] => {
          const value = figureOf(cell);
          return value === undefined || Number.isNaN(angles[c]!) ? [] : [[angles[c]!, value]];
        }),
      );
      return found ? [{ ...found, row: rows[r] ?? '' }] : [];
    })
    .sort((a, b) => b.ovality - a.ovality)[0];
}

/** The greatest range within one of several lines of places; none where no line has two figures. */
function spreadOf(lines: readonly (readonly PlaceCell[])[]): Spread | undefined {
  let widest: Spread | undefined;
  for (const line of lines) {
    const known = line
      .flatMap((cell) => {
        const value = figureOf(cell);
        return value === undefined ? [] : [{ value, place: cell.place }];
      })
      .sort((a, b) => a.value - b.value);
    const [least, greatest] = [known[0], known.at(-1)];
    if (known.length < 2 || !least || !greatest) continue;
    const value = greatest.value - least.value;
    if (!widest || value > widest.value) widest = { value, greatest: greatest.place, least: least.place };
  }
  return widest;
}

function mapOf(book: Book, characteristic: Characteristic, judgements: readonly Assessed[]): JobMap[] {
  const laid = layout(characteristic.places);
  if (!laid || characteristic.kind === 'seen') return [];
  const { strip, row, column } = laid;
  const sheet = book.sheet ?? { axes: {} };
  const cells = cellsOf(book, characteristic, judgements);
  const [rows, columns] = [axisValues(sheet, characteristic, row), axisValues(sheet, characteristic, column)];
  // Taper and out-of-round are differences of sizes; of what is itself a difference they would mean nothing.
  const isSize = characteristic.kind === 'length' && characteristic.relation === undefined;
  const strips = (strip === undefined ? [undefined] : axisValues(sheet, characteristic, strip)).map(
    (value) => {
      const table = rows.map((r) =>
        columns.map((c) => {
          const place = { ...(strip !== undefined && { [strip]: value! }), [row]: r, [column]: c };
          return cells.get(placeText(place, characteristic.places)) ?? { place, worst: false };
        }),
      );
      const taper =
        isSize && ALONG.includes(row)
          ? spreadOf(columns.map((_, c) => table.map((line) => line[c]!)))
          : undefined;
      const outOfRound = isSize && ROUND.includes(column) ? spreadOf(table) : undefined;
      const oval = isSize && ROUND.includes(column) ? ovalOf(rows, columns, table) : undefined;
      return {
        ...(value !== undefined && { value }),
        cells: table,
        ...(oval && { oval }),
        ...(taper && { taper }),
        ...(outOfRound && { outOfRound }),
      };
    },
  );
  const all = [...cells.values()];
  const farthest = all
    .filter(({ off }) => off !== undefined)
    .sort((a, b) => Math.abs(b.off!) - Math.abs(a.off!))[0];
  const size = judgements
    .filter((one) => one.characteristic.id === characteristic.id)
    .flatMap(({ states }) => states.map((state) => state.size ?? ''))[0];
  const meant = meantNew(characteristic, size === '' ? undefined : size);
  return [
    {
      characteristic,
      ...laid,
      rows,
      columns,
      strips,
      ...(meant !== undefined && { meant }),
      ...(farthest && { farthest }),
      measured: all.filter(({ operand }) => operand).length,
      valued: all.filter((cell) => figureOf(cell) !== undefined).length,
      places: all.length,
    },
  ];
}

/** One characteristic unrolled; undefined where it is not read over two or three axes. */
export const jobMap = (
  book: Book,
  characteristic: Characteristic,
  judgements: readonly Assessed[],
): JobMap | undefined => mapOf(book, characteristic, judgements)[0];

/** Every characteristic read over two or three axes, unrolled, whether or not anything of it is measured yet. */
export const jobMaps = (book: Book, judgements: readonly Assessed[]): JobMap[] =>
  [...book.characteristics.values()].flatMap((one) => mapOf(book, one, judgements));

import { type Assessed, type Book, type Characteristic, limitsOf, type Member, placesOf } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { type MapCell, type TintStep, unrolledBoresSvg, type VerdictMark } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { bare, shown } from '../words/quantity.ts';
import { unitSign } from '../words/unit.ts';

/** Width of the text on the narrower of the two papers [pt]. */
export const TEXT_WIDTH = 493;

const MARK: Readonly<Record<string, VerdictMark>> = { in: 'in', out: 'out', 'cannot-tell': 'cannot-tell' };

/** Where the part would be as new: the middle of the limits for new parts, or the one limit there is. */
function asNew(characteristic: Characteristic, size: string | undefined): number | undefined {
  const limits = limitsOf(characteristic, 'new', size);
  if (!limits) return undefined;
  const { lower, upper, target } = limits;
  if (target !== undefined) return target;
  return lower !== undefined && upper !== undefined ? (lower + upper) / 2 : (lower ?? upper);
}

/** Greys by how far a place is from as new, in five equal steps up to the farthest. */
function stepsTo(characteristic: Characteristic, farthest: number): TintStep[] {
  const { unit } = characteristic;
  if (!(farthest > 0) || unit === undefined) return [];
  return [1, 2, 3, 4, 5].map((step) => ({
    upTo: inUnit((farthest * step) / 5, unit) * (1 + 1e-9),
    text: step === 5 ? shown(characteristic, farthest) : bare(characteristic, (farthest * step) / 5),
  }));
}

type Found = ReadonlyMap<string, { member: Member; judgement: Assessed }>;

const keyOf = (place: Readonly<Record<string, string>>, axes: readonly string[]): string =>
  axes.map((axis) => place[axis] ?? '').join('\n');

function foundPlaces(judgements: readonly Assessed[], axes: readonly string[]): Found {
  return new Map(
    judgements.flatMap((judgement) =>
      judgement.members
        .filter(({ known }) => known.operand.kind === 'value')
        .map((member) => [keyOf(member.place, axes), { member, judgement }] as const),
    ),
  );
}

/** A characteristic read over three axes, part by part: heights or ends down, directions across. */
function mapOf(book: Book, characteristic: Characteristic, judgements: readonly Assessed[]) {
  const axes = characteristic.places;
  const [strip, row, column] = axes;
  const found = foundPlaces(judgements, axes);
  if (strip === undefined || row === undefined || column === undefined || found.size === 0) return [];
  const places = placesOf(book.sheet ?? { axes: {} }, characteristic);
  const valuesOf = (axis: string): string[] => [...new Set(places.map((place) => place[axis] ?? ''))];
  const { unit } = characteristic;
  const size = judgements.flatMap(({ states }) => states.map((state) => state.size ?? ''))[0];
  const nominal = asNew(characteristic, size === '' ? undefined : size);
  const value = (member: Member): number =>
    member.known.operand.kind === 'value' ? member.known.operand.q.value : Number.NaN;
  const off = (member: Member): number => (nominal === undefined ? 0 : Math.abs(value(member) - nominal));
  const farthest = Math.max(0, ...[...found.values()].map(({ member }) => off(member)));
  const cellAt = (place: Readonly<Record<string, string>>): MapCell | undefined => {
    const at = found.get(keyOf(place, axes));
    if (!at) return undefined;
    const { member, judgement } = at;
    const verdict = judgement.governing && MARK[member.verdicts[judgement.governing]?.verdict ?? ''];
    return {
      text: bare(characteristic, value(member)),
      ...(nominal !== undefined && unit !== undefined && { deviation: inUnit(off(member), unit) }),
      ...(verdict && { verdict }),
      worst: judgement.worstAt !== undefined && keyOf(judgement.worstAt, axes) === keyOf(place, axes),
    };
  };
  const [rows, columns] = [valuesOf(row), valuesOf(column)];
  const degrees = column === 'turn' || row === 'turn';
  const steps = nominal === undefined ? [] : stepsTo(characteristic, farthest);
  const said =
    nominal === undefined ? '' : ` Tinted by how far it is from ${shown(characteristic, nominal)}, as new.`;
  const title = `${characteristic.line === undefined ? '' : `${characteristic.line} `}${characteristic.name}`;
  const alt = `${title}: what was read at each ${row} and ${column} of every ${strip}.`;
  return [
    {
      title,
      words: `Each ${strip} by ${row} and ${column}${unit === undefined ? '' : `, ${unitSign(unit)}`}; the worst place is framed.${said}`,
      alt,
      svg: unrolledBoresSvg(
        {
          rows: rows.map(printableText),
          columns: columns.map((name) => printableText(degrees && column === 'turn' ? `${name}°` : name)),
          strips: valuesOf(strip).map((name) => ({
            name: printableText(`${strip} ${name}`),
            cells: rows.map((r) => columns.map((c) => cellAt({ [strip]: name, [row]: r, [column]: c }))),
          })),
          steps,
          worst: 'worst',
        },
        {
          title: printableText(title),
          desc: printableText(alt),
          width: TEXT_WIDTH,
          profile: 'paper',
          paper: true,
        },
      ),
    },
  ];
}

/** Every characteristic read over three axes, unrolled. What is worked out is judged elsewhere; here are sizes. */
export const mapPages = (book: Book, judgements: readonly Assessed[]) =>
  [...book.characteristics.values()]
    .filter(({ places, kind, relation }) => places.length === 3 && kind !== 'seen' && relation === undefined)
    .flatMap((characteristic) =>
      mapOf(
        book,
        characteristic,
        judgements.filter((one) => one.characteristic.id === characteristic.id),
      ),
    );

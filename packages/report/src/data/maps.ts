import { type Assessed, type Book, type Characteristic, limitsOf, type Member, placesOf } from '@fettle/book';
import { inUnit } from '@fettle/core';
import { type MapCell, type TintStep, unrolledBoresSvg, type VerdictMark } from '@fettle/draw';
import { printableText } from '../printable.ts';
import { bare, shown } from '../words/quantity.ts';
import { unitSign } from '../words/unit.ts';

/** Two stand beside each other where there is one strip. */
const HALF_WIDTH = 236;

/** Width of the text on the narrower of the two papers [pt]. */
export const TEXT_WIDTH = 493;

const MARK: Readonly<Record<string, VerdictMark>> = { in: 'in', out: 'out', 'cannot-tell': 'cannot-tell' };

/**
 * Where the part would be as new: the middle of the limits for new parts, or their lower one alone. What has only an
 * upper limit, as taper and wear have, would be nothing.
 */
function asNew(characteristic: Characteristic, size: string | undefined): number | undefined {
  const limits = limitsOf(characteristic, 'new', size) ?? limitsOf(characteristic, 'wear', size);
  if (!limits) return undefined;
  const { lower, upper, target } = limits;
  if (upper !== undefined && lower === undefined) return target ?? 0;
  if (characteristic.limits?.new === undefined) return undefined;
  return target ?? (upper === undefined ? lower : (lower! + upper) / 2);
}

/** Greys by how far a place is from as new, in five equal steps up to the farthest. */
function stepsTo(characteristic: Characteristic, farthest: number): TintStep[] {
  const { unit } = characteristic;
  if (!(farthest > 0) || unit === undefined) return [];
  const steps = [1, 2, 3, 4, 5].map((step) => ({
    upTo: inUnit((farthest * step) / 5, unit) * (1 + 1e-9),
    text: step === 5 ? shown(characteristic, farthest) : bare(characteristic, (farthest * step) / 5),
  }));
  // Steps finer than what is printed would read alike.
  return steps.filter(({ text }, i) => bareOf(text) !== bareOf(steps[i + 1]?.text));
}

const bareOf = (text: string | undefined): string | undefined => text?.split(' ')[0];

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

/** Which axis goes across a strip and which down, where the name of it says so. */
const ACROSS: readonly string[] = ['axis', 'turn', 'direction'];
const DOWN: readonly string[] = ['height', 'end', 'section'];

/** Strip, row and column: by their names, else in the order of the sheet; over two axes there is one strip. */
function layout(axes: readonly string[]): { strip?: string; row: string; column: string } | undefined {
  const [first, second, third] = axes;
  if (first === undefined || second === undefined) return undefined;
  if (third === undefined)
    return ACROSS.includes(first) ? { row: second, column: first } : { row: first, column: second };
  const column = axes.find((axis) => ACROSS.includes(axis)) ?? third;
  const others = axes.filter((axis) => axis !== column);
  const row = others.find((axis) => DOWN.includes(axis)) ?? others[1]!;
  return { strip: others.find((axis) => axis !== row)!, row, column };
}

/** A characteristic read over two or three axes, part by part: heights or ends down, directions across. */
function mapOf(book: Book, characteristic: Characteristic, judgements: readonly Assessed[]) {
  const axes = characteristic.places;
  const laid = layout(axes);
  const found = foundPlaces(judgements, axes);
  if (laid === undefined || found.size === 0) return [];
  const { strip, row, column } = laid;
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
  // An axis of bare numbers does not say what they are of.
  const named = (axis: string, value: string): string =>
    axis === 'turn' ? `${value}°` : /^\d+$/.test(value) ? `${axis} ${value}` : value;
  const steps = nominal === undefined ? [] : stepsTo(characteristic, farthest);
  const said =
    nominal === undefined
      ? ''
      : nominal === 0
        ? ' The darker, the more of it.'
        : ` Tinted by how far it is from ${shown(characteristic, nominal)}, as new.`;
  const title = `${characteristic.line === undefined ? '' : `${characteristic.line} `}${characteristic.name}`;
  const over = `each ${row} and ${column}${strip === undefined ? '' : ` of every ${strip}`}`;
  const alt = `${title}: what was read at ${over}.`;
  return [
    {
      title,
      half: strip === undefined,
      words: `${strip === undefined ? 'By' : `Each ${strip} by`} ${row} and ${column}${unit === undefined ? '' : `, ${unitSign(unit)}`}; the worst place is framed.${said}`,
      alt,
      svg: unrolledBoresSvg(
        {
          rows: rows.map((value) => printableText(named(row, value))),
          columns: columns.map((value) => printableText(named(column, value))),
          strips: (strip === undefined ? [''] : valuesOf(strip)).map((name) => ({
            name: strip === undefined ? '' : printableText(`${strip} ${name}`),
            cells: rows.map((r) =>
              columns.map((c) =>
                cellAt({ ...(strip !== undefined && { [strip]: name }), [row]: r, [column]: c }),
              ),
            ),
          })),
          steps,
          worst: 'worst',
        },
        {
          title: printableText(title),
          desc: printableText(alt),
          width: strip === undefined ? HALF_WIDTH : TEXT_WIDTH,
          profile: 'paper',
          paper: true,
        },
      ),
    },
  ];
}

/** Every characteristic of two or three axes, unrolled as it was drawn up: sizes, and what was worked out from them. */
export const mapPages = (book: Book, judgements: readonly Assessed[]) =>
  [...book.characteristics.values()]
    .filter(({ places, kind }) => (places.length === 2 || places.length === 3) && kind !== 'seen')
    .flatMap((characteristic) =>
      mapOf(
        book,
        characteristic,
        judgements.filter((one) => one.characteristic.id === characteristic.id),
      ),
    );

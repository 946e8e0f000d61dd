import { finite, kept } from './svg/finite.ts';
import { line, num, polyline, stroke, svg, type } from './svg/marks.ts';
import { niceTicks } from './svg/nice-ticks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';

/** A set of repairs. */
export interface CostPoint {
  readonly price: number;
  /** 0 to 1. */
  readonly chance: number;
  /** Beside the point, such as a number that a list below explains. */
  readonly name: string;
  /** The one recommended. */
  readonly best?: boolean | undefined;
}

export interface CostChart {
  /** Such as "price". */
  readonly priceAxis: string;
  /** Such as "chance, %". */
  readonly chanceAxis: string;
  /** By rising price: each next one costs more and is surer. */
  readonly points: readonly CostPoint[];
  /** A second row of points for comparison, drawn faintly. */
  readonly beside?: readonly CostPoint[] | undefined;
  readonly wanted?: { readonly chance: number; readonly text: string } | undefined;
  readonly cap?: { readonly price: number; readonly text: string } | undefined;
}

interface Field {
  readonly x: (price: number) => number;
  readonly y: (chance: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What money buys: steps from each set of repairs to the next dearer and surer one. */
export function costFrontierSvg(chart: CostChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small } = pen.size;
  const points = drawable(chart.points);
  const beside = drawable(chart.beside ?? []);
  const cap = chart.cap && finite(chart.cap.price) !== undefined ? chart.cap : undefined;
  const most = Math.max(1, ...[...points, ...beside].map(({ price }) => price), cap?.price ?? 0) * 1.06;
  const height = Math.round(kept(width * 0.5, label * 15, label * 26));
  const left = textWidth('100', small) + small * 0.8;
  const right = width - label * 0.8;
  const apart = chart.wanted && headWidth(chart, small) > right ? small * 1.3 : 0;
  const [top, bottom] = [small * 2.6 + apart, height - small * 3];
  const field: Field = {
    left,
    right,
    top,
    bottom,
    x: (price) => left + kept(price / most, 0, 1) * (right - left),
    y: (chance) => bottom - kept(chance, 0, 1) * (bottom - top),
  };
  return svg(picture, pen, width, height, [
    ...axes(pen, chart, field, most),
    ...wantedLine(pen, chart, field),
    ...capLine(pen, cap, field),
    steps(pen, field, beside, 'beside'),
    steps(pen, field, points, 'frontier'),
    ...beside.map((point) => dot(pen, field, point, 'beside')),
    ...points.map((point) => dot(pen, field, point, 'set')),
  ]);
}

const drawable = (points: readonly CostPoint[]): readonly CostPoint[] =>
  points
    .filter(({ price, chance }) => Number.isFinite(price) && Number.isFinite(chance))
    .toSorted((a, b) => a.price - b.price);

function axes(pen: Pen, chart: CostChart, { x, y, left, right, top, bottom }: Field, most: number): string[] {
  const { small, hair, line: thin } = pen.size;
  const soft = { size: small, colour: pen.soft } as const;
  const prices = niceTicks(0, most, kept(Math.floor((right - left) / (small * 6)), 2, 8));
  return [
    ...[0, 0.25, 0.5, 0.75, 1].flatMap((chance) => [
      chance === 0 ? '' : line(left, y(chance), right, y(chance), stroke(pen.rule, hair / 2)),
      type(pen, left - small * 0.5, y(chance) + small * 0.35, String(chance * 100), {
        ...soft,
        anchor: 'end',
      }),
    ]),
    ...prices.flatMap((price) => [
      line(x(price), bottom, x(price), bottom + small * 0.35, stroke(pen.ink, hair)),
      type(pen, x(price), bottom + small * 1.4, String(price), { ...soft, anchor: 'middle' }),
    ]),
    line(left, bottom, right, bottom, stroke(pen.ink, thin)),
    line(left, top - small * 0.4, left, bottom, stroke(pen.ink, thin)),
    type(pen, 0, small * 1.1, chart.chanceAxis, soft),
    type(pen, right, bottom + small * 2.65, chart.priceAxis, { ...soft, anchor: 'end' }),
  ];
}

function wantedLine(pen: Pen, { wanted }: CostChart, { y, left, right, top }: Field): string[] {
  if (!wanted || finite(wanted.chance) === undefined) return [];
  const { small, line: thin } = pen.size;
  const at = y(wanted.chance);
  const dash = stroke(pen.accent, thin, `${num(thin * 5)} ${num(thin * 3)}`);
  // At the head of the picture: near its line the points are thickest.
  const base = top - small * 1.5;
  const from = right - textWidth(wanted.text, small) - small * 0.6;
  return [
    `<g data-mark="wanted">${line(left, at, right, at, dash)}</g>`,
    line(from - small * 2.2, base - small * 0.35, from, base - small * 0.35, dash),
    type(pen, right, base, wanted.text, { size: small, colour: pen.accent, anchor: 'end' }),
  ];
}

/** What the axis and the wanted chance take beside each other. */
const headWidth = ({ chanceAxis, wanted }: CostChart, small: number): number =>
  textWidth(chanceAxis, small) + textWidth(wanted?.text ?? '', small) + small * 4;

function capLine(pen: Pen, cap: CostChart['cap'], { x, left, right, top, bottom }: Field): string[] {
  if (!cap) return [];
  const { small, heavy } = pen.size;
  const at = x(cap.price);
  const ends = at - textWidth(cap.text, small) < left + small;
  return [
    `<g data-mark="cap">${line(at, top, at, bottom, stroke(pen.accent, heavy * 0.7))}</g>`,
    type(pen, kept(ends ? at + small * 0.4 : at - small * 0.4, left, right), bottom - small * 0.6, cap.text, {
      size: small,
      colour: pen.accent,
      halo: true,
      anchor: ends ? 'start' : 'end',
    }),
  ];
}

/** Money spent without reaching the next point buys nothing: level, then up. */
function steps(pen: Pen, { x, y, right }: Field, points: readonly CostPoint[], mark: string): string {
  const last = points.at(-1);
  if (!last) return '';
  const way = points.flatMap(({ price, chance }, i) => {
    const before = points[i - 1];
    return [...(before ? [[x(price), y(before.chance)] as const] : []), [x(price), y(chance)] as const];
  });
  const ink =
    mark === 'frontier' ? stroke(pen.ink, pen.size.line * 1.3) : stroke(pen.soft, pen.size.hair, '3 3');
  return `<g data-mark="${mark}-steps">${polyline([...way, [right, y(last.chance)]], ink)}</g>`;
}

function dot(pen: Pen, { x, y, left, right }: Field, point: CostPoint, mark: string): string {
  const { small, label, line: thin } = pen.size;
  const [cx, cy] = [x(point.price), y(point.chance)];
  const r = mark === 'beside' ? small * 0.24 : small * 0.42;
  const fill = point.best === true ? pen.accent : mark === 'beside' ? pen.paper : pen.ink;
  const ring = `stroke="${point.best === true ? pen.accent : pen.ink}" stroke-width="${num(thin)}"`;
  const circle = `<circle cx="${num(cx)}" cy="${num(cy)}" r="${num(r)}" fill="${fill}" ${ring}/>`;
  const size = mark === 'beside' ? small : label;
  const wide = textWidth(point.name, size, point.best === true);
  const before = cx + r * 1.8 + wide > right;
  const name =
    point.name === ''
      ? ''
      : type(
          pen,
          before ? Math.max(left + wide, cx - r * 1.8) : cx + r * 1.8,
          point.chance < 0.1 ? cy - size * 0.5 : cy + size * 1.1,
          point.name,
          {
            size,
            bold: point.best === true,
            halo: true,
            anchor: before ? 'end' : 'start',
          },
        );
  return `<g data-mark="${mark}" data-x="${num(cx)}" data-y="${num(cy)}">${circle}${name}</g>`;
}

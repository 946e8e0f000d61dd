import { contourOf } from './contours.ts';
import { isDrawable } from './svg/drawable.ts';
import { line, num, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf, TINTS } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';

/** One spot of a face. */
export interface FaceMapSpot {
  readonly name: string;
  /** Along and across, in one unit. */
  readonly x: number;
  readonly y: number;
  /** Over the lower plane; without it the spot is not probed. */
  readonly above?: number | undefined;
  readonly text?: string | undefined;
  /** The planes rest on it. */
  readonly holds?: 'high' | 'low' | undefined;
}

/** A face seen from above: how far each spot stands over the lower of the two planes that hold it. */
export interface FaceMap {
  readonly spots: readonly FaceMapSpot[];
  /** Distance of the two planes. */
  readonly zone: number;
  /** For the key: each fifth of the zone, from the lowest. */
  readonly steps: readonly string[];
  readonly words: { readonly high: string; readonly low: string; readonly missing: string };
}

/** Fine enough that a tint's edge looks straight. */
const FINE = 48;

/**
 * Spots in their places, the lower the darker. Where they fill a grid the face between them is tinted and contoured,
 * straight from spot to spot; where they do not, nothing is drawn between: nothing was probed there.
 */
export function faceMapSvg(map: FaceMap, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, hair, line: thin } = pen.size;
  const spots = map.spots
    .filter(({ x, y }) => isDrawable(x) && isDrawable(y))
    // A height that is none is one not probed.
    .map((spot) => (isDrawable(spot.above) ? spot : { ...spot, above: undefined }));
  const [xs, ys] = [rising(spots.map(({ x }) => x)), rising(spots.map(({ y }) => y))];
  const [x0, y0] = [xs[0] ?? 0, ys[0] ?? 0];
  const [long, deep] = [(xs.at(-1) ?? 0) - x0, (ys.at(-1) ?? 0) - y0];
  const widest = Math.max(label * 3, ...spots.map(({ text = '' }) => textWidth(text, label, true)));
  const margin = widest * 0.5 + label * 1.1;
  const across = Math.max(label, width - 2 * margin);
  const wide = (x: number): number => (long > 0 ? (x / long) * across : 0);
  const rows = new Map(ys.map((y) => [y, spots.filter((spot) => spot.y === y).sort((a, b) => a.x - b.x)]));
  const levels = Math.max(1, ...[...rows.values()].map((row) => tiers(row, wide, widest)));
  // A face much longer than deep still leaves room for three lines of type a row.
  const up = Math.min(
    across,
    Math.max(long > 0 ? (across * deep) / long : across, label * (3.6 + levels) * (ys.length - 1)),
  );
  const top = label * (1.3 + 1.15 * levels);
  const px = (x: number): number => margin + (long > 0 ? ((x - x0) / long) * across : across / 2);
  const py = (y: number): number => top + (deep > 0 ? ((y - y0) / deep) * up : up / 2);
  const share = (above: number): number => (map.zone > 0 ? Math.min(1, Math.max(0, above / map.zone)) : 1);
  const values = ys.flatMap((y) =>
    xs.map((x) => {
      const above = spots.find((spot) => spot.x === x && spot.y === y)?.above;
      return above === undefined ? Number.NaN : share(above);
    }),
  );
  const isGrid = xs.length > 1 && ys.length > 1 && values.every(Number.isFinite);
  const marks: string[] = [];
  if (isGrid) {
    marks.push(tints(pen, xs, ys, values, px, py));
    for (const level of [0.2, 0.4, 0.6, 0.8])
      for (const { from, to } of contourOf({ xs, ys, values }, level))
        marks.push(line(px(from[0]), py(from[1]), px(to[0]), py(to[1]), stroke(pen.soft, hair * 1.5)));
    marks.push(rect(margin, top, across, up, stroke(pen.ink, thin)));
  }
  for (const spot of spots) {
    const row = rows.get(spot.y) ?? [];
    marks.push(
      drawnSpot(
        pen,
        spot,
        px(spot.x),
        py(spot.y),
        share,
        isGrid,
        row.indexOf(spot) % tiers(row, wide, widest),
      ),
    );
  }
  const key = keyOf(pen, map, top + up + label * 2.8, width);
  return svg(picture, pen, width, key.bottom, [...marks, ...key.marks]);
}

const rising = (values: readonly number[]): number[] => [...new Set(values)].sort((a, b) => a - b);

/** In how many tiers figures stand over a row, so that none runs into its neighbour. */
function tiers(row: readonly FaceMapSpot[], wide: (x: number) => number, widest: number): number {
  const gaps = row.slice(1).map(({ x }, i) => wide(x - row[i]!.x));
  return Math.min(3, Math.max(1, ...gaps.map((gap) => Math.ceil((widest * 1.08) / Math.max(1e-9, gap)))));
}

/** The lowest fifth is the darkest. */
const stepOf = (share: number): number => TINTS - 1 - Math.min(TINTS - 1, Math.floor(share * TINTS));

/** Bands of tint, straight from spot to spot along both directions. */
function tints(
  pen: Pen,
  xs: readonly number[],
  ys: readonly number[],
  values: readonly number[],
  px: (x: number) => number,
  py: (y: number) => number,
): string {
  const rows: string[] = [];
  for (let j = 0; j + 1 < ys.length; j++)
    for (let r = 0; r < FINE; r++) {
      const part = (r + 0.5) / FINE;
      const between = (a: number, b: number): number => a + part * (b - a);
      const row = xs.map((_, i) => between(values[j * xs.length + i]!, values[(j + 1) * xs.length + i]!));
      const [from, to] = [
        ys[j]! + (r / FINE) * (ys[j + 1]! - ys[j]!),
        ys[j]! + ((r + 1) / FINE) * (ys[j + 1]! - ys[j]!),
      ];
      for (const { start, end, step } of runs(xs, row))
        if (step > 0)
          rows.push(rect(px(start), py(from), px(end) - px(start), py(to) - py(from) + 0.3, pen.tint(step)));
    }
  return `<g data-mark="tints">${rows.join('')}</g>`;
}

interface TintRun {
  readonly start: number;
  readonly end: number;
  readonly step: number;
}

/** A row cut where its tint changes. */
function runs(xs: readonly number[], row: readonly number[]): TintRun[] {
  const found: TintRun[] = [];
  for (let i = 0; i + 1 < xs.length; i++)
    for (let k = 0; k < FINE; k++) {
      const at = (part: number): number => xs[i]! + part * (xs[i + 1]! - xs[i]!);
      const step = stepOf(row[i]! + ((k + 0.5) / FINE) * (row[i + 1]! - row[i]!));
      const last = found.at(-1);
      if (last?.step === step) found[found.length - 1] = { ...last, end: at((k + 1) / FINE) };
      else found.push({ start: at(k / FINE), end: at((k + 1) / FINE), step });
    }
  return found;
}

function drawnSpot(
  pen: Pen,
  { name, above, text, holds }: FaceMapSpot,
  x: number,
  y: number,
  share: (above: number) => number,
  isGrid: boolean,
  tier: number,
): string {
  const { label, small, line: thin, heavy } = pen.size;
  const radius = label * (isGrid ? 0.22 : 0.55);
  const disc = `<circle cx="${num(x)}" cy="${num(y)}" r="${num(radius)}"`;
  const parts: string[] = [];
  if (above === undefined)
    parts.push(
      `${disc} fill="${pen.paper}" stroke="${pen.soft}" stroke-width="${num(thin)}" stroke-dasharray="${num(thin * 2)}"/>`,
    );
  else if (isGrid) parts.push(`${disc} fill="${pen.ink}"/>`);
  else
    parts.push(
      `${disc} fill="${pen.paper}"/>`,
      `${disc} ${pen.tint(stepOf(share(above)))} stroke="${pen.ink}" stroke-width="${num(thin)}"/>`,
    );
  if (holds) parts.push(holdMark(pen, x, y, radius + heavy, holds));
  if (text !== undefined)
    parts.push(
      type(pen, x, y - radius - label * (0.45 + 1.15 * tier), text, {
        size: label,
        anchor: 'middle',
        bold: holds !== undefined,
        halo: true,
      }),
    );
  parts.push(
    type(pen, x, y + radius + small * 1.2, name, {
      size: small,
      anchor: 'middle',
      colour: pen.soft,
      halo: true,
    }),
  );
  return `<g data-spot="${above === undefined ? 'missing' : (holds ?? 'probed')}">${parts.join('')}</g>`;
}

/** A triangle beside the spot: up for the highest, down for the lowest. */
function holdMark(pen: Pen, x: number, y: number, off: number, holds: 'high' | 'low'): string {
  const side = pen.size.label * 0.5;
  const [left, up] = [x + off, holds === 'high' ? -1 : 1];
  return polygon(
    [
      [left, y - up * side * 0.5],
      [left + side, y - up * side * 0.5],
      [left + side / 2, y + up * side * 0.6],
    ],
    `fill="${pen.ink}"`,
  );
}

function keyOf(
  pen: Pen,
  { steps, words, spots }: FaceMap,
  top: number,
  width: number,
): { readonly marks: readonly string[]; readonly bottom: number } {
  const { small, hair, line: thin } = pen.size;
  const [w, h] = [small * 1.8, small * 1.1];
  const items: { readonly text: string; readonly mark: (x: number, y: number) => string }[] = [
    ...steps.slice(0, TINTS).map((text, k) => ({
      text,
      mark: (x: number, y: number) =>
        rect(x, y, w, h, pen.tint(TINTS - 1 - k)) + rect(x, y, w, h, stroke(pen.ink, hair)),
    })),
    ...(['high', 'low'] as const).flatMap((side) =>
      spots.some(({ holds }) => holds === side)
        ? [{ text: words[side], mark: (x: number, y: number) => holdMark(pen, x, y + h / 2, w * 0.3, side) }]
        : [],
    ),
    ...(spots.some(({ above }) => above === undefined)
      ? [
          {
            text: words.missing,
            mark: (x: number, y: number) =>
              `<circle cx="${num(x + w / 2)}" cy="${num(y + h / 2)}" r="${num(h * 0.4)}" ${stroke(pen.soft, thin, num(thin * 2))}/>`,
          },
        ]
      : []),
  ];
  const marks: string[] = [];
  let [x, y] = [0, top];
  for (const { text, mark } of items) {
    const whole = w + small * 0.5 + textWidth(text, small);
    if (x > 0 && x + whole > width) [x, y] = [0, y + small * 1.9];
    marks.push(
      mark(x + thin, y),
      type(pen, x + thin + w + small * 0.5, y + small * 0.9, text, { size: small }),
    );
    x += whole + small * 1.4;
  }
  return { marks, bottom: items.length === 0 ? top : y + small * 1.6 };
}

import { contourOf, type Run, runsOf } from './contours.ts';
import { kept } from './svg/finite.ts';
import { line, num, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { niceTicks } from './svg/nice-ticks.ts';
import { type Pen, penOf, TINTS } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';
import { type VerdictMark, verdictShape } from './svg/verdict-shape.ts';

/** Gauge pressure over speed and temperature, in the units named on the axes. */
export interface PressureMapChart {
  /** Such as "rpm". */
  readonly speedAxis: string;
  /** Such as "°C". */
  readonly temperatureAxis: string;
  /** Such as "psi". */
  readonly pressureUnit: string;
  /** Rising. */
  readonly speeds: readonly number[];
  /** Rising. */
  readonly temperatures: readonly number[];
  /** Row by row: all speeds at the first temperature, then at the next. */
  readonly pressures: ArrayLike<number>;
  readonly limits?: readonly MapMark[] | undefined;
}

/** What the sheet wants at one point, and whether the map gives it. */
export interface MapMark {
  readonly speed: number;
  readonly temperature: number;
  readonly mark: VerdictMark;
  /** Such as "at least 15 psi: 7.9". */
  readonly text: string;
}

interface Field {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly x: (speed: number) => number;
  readonly y: (temperature: number) => number;
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly half: number;
}

/** Pressure as tints, darker where it is higher, and contour lines with their figures; hotter is lower down. */
export function pressureMapSvg(chart: PressureMapChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small } = pen.size;
  const { speeds, temperatures } = chart;
  const values = Array.from(chart.pressures, Number);
  const known = values.filter(Number.isFinite);
  const height = Math.round(kept(width * 0.62, label * 17, label * 30));
  const [slow, fast] = [Math.min(...speeds), Math.max(...speeds)];
  const [cool, warm] = [Math.min(...temperatures), Math.max(...temperatures)];
  const drawable =
    speeds.length > 1 && temperatures.length > 1 && known.length > 0 && fast > slow && warm > cool;
  if (!drawable) return svg(picture, pen, width, label, []);
  const yTicks = niceTicks(cool, warm, 6);
  const yWide = Math.max(...yTicks.map((tick) => textWidth(String(tick), small)));
  const [left, right] = [yWide + small * 0.9, width - small * 0.6];
  const [top, bottom] = [small * 2, height - small * 3];
  const field: Field = {
    left,
    right,
    top,
    bottom,
    x: (speed) => left + kept((speed - slow) / (fast - slow), 0, 1) * (right - left),
    y: (temperature) => top + kept((temperature - cool) / (warm - cool), 0, 1) * (bottom - top),
  };
  const levels = niceTicks(Math.min(...known), Math.max(...known), 7);
  const grid = { xs: speeds, ys: temperatures, values };
  const taken: Box[] = [];
  const marks = markTexts(pen, field, chart.limits ?? [], taken);
  return svg(picture, pen, width, height, [
    tints(pen, field, grid, levels),
    ...axes(pen, chart, field, niceTicks(slow, fast, kept(Math.floor(width / (label * 5)), 2, 8)), yTicks),
    ...levels.flatMap((level) => contour(pen, field, contourOf(grid, level), level, taken)),
    ...marks,
  ]);
}

/** How often a strip is halved where the bands above and below it are not the same ones. */
const HALVINGS = 3;

/** Each strip between two rows as pieces that reach from the crossings above to those below. */
function tints(
  pen: Pen,
  { x, y }: Field,
  { xs, ys, values }: { xs: readonly number[]; ys: readonly number[]; values: readonly number[] },
  levels: readonly number[],
): string {
  const row = (j: number): number[] => values.slice(j * xs.length, (j + 1) * xs.length);
  const tint = (band: number): string =>
    pen.tint(Math.round((band / Math.max(1, levels.length)) * (TINTS - 1)));
  const alike = (a: readonly Run[], b: readonly Run[]): boolean =>
    a.length === b.length && a.every(({ band }, i) => band === b[i]!.band);
  const strip = (
    above: readonly number[],
    below: readonly number[],
    t: number,
    b: number,
    halvings: number,
  ): string => {
    const [over, under] = [runsOf(xs, above, levels), runsOf(xs, below, levels)];
    if (alike(over, under))
      return over
        .map(({ from, to, band }, i) => {
          const [left, right] = [under[i]!.from, under[i]!.to];
          return polygon(
            [
              [x(from), t],
              [x(to), t],
              [x(right), b],
              [x(left), b],
            ],
            tint(band),
          );
        })
        .join('');
    const between = above.map((value, i) => (value + below[i]!) / 2);
    const middle = (t + b) / 2;
    return halvings > 0
      ? strip(above, between, t, middle, halvings - 1) + strip(between, below, middle, b, halvings - 1)
      : runsOf(xs, between, levels)
          .map(({ from, to, band }) => rect(x(from), t, x(to) - x(from), b - t, tint(band)))
          .join('');
  };
  const strips = ys.slice(1).map((_, j) => strip(row(j), row(j + 1), y(ys[j]!), y(ys[j + 1]!), HALVINGS));
  // Softened edges would let the paper shine through between two strips.
  return `<g data-mark="tints" shape-rendering="crispEdges">${strips.join('')}</g>`;
}

function contour(
  pen: Pen,
  { x, y, left, right, top, bottom }: Field,
  stretches: ReturnType<typeof contourOf>,
  level: number,
  taken: Box[],
): string[] {
  if (stretches.length === 0) return [];
  const { small, line: thin } = pen.size;
  const points = stretches.map(({ from, to }) => [x(from[0]), y(from[1]), x(to[0]), y(to[1])] as const);
  const d = points.map(([x1, y1, x2, y2]) => `M${num(x1)} ${num(y1)}L${num(x2)} ${num(y2)}`).join('');
  const drawn = `<path data-mark="contour" data-level="${num(level)}" d="${d}" ${stroke(pen.ink, thin * 0.8)} stroke-linecap="round"/>`;
  const words = String(level);
  const half = textWidth(words, small, true) / 2 + small * 0.3;
  const free = (px: number, py: number): boolean =>
    px - half > left &&
    px + half < right &&
    py - small > top &&
    py + small * 0.6 < bottom &&
    taken.every((box) => Math.abs(box.x - px) > box.half + half || Math.abs(box.y - py) > small * 1.5);
  // Along a line from the upper left to the lower right every contour is met about once.
  const guide = (px: number, py: number): number =>
    Math.abs((px - left) / (right - left) - (py - top) / (bottom - top));
  const spots = points
    .map(([x1, y1, x2, y2]) => ({ px: (x1 + x2) / 2, py: (y1 + y2) / 2 }))
    .filter(({ px, py }) => free(px, py))
    .sort((a, b) => guide(a.px, a.py) - guide(b.px, b.py));
  const [spot] = spots;
  if (!spot) return [drawn];
  taken.push({ x: spot.px, y: spot.py, half });
  return [
    drawn,
    type(pen, spot.px, spot.py + small * 0.35, words, {
      size: small,
      anchor: 'middle',
      bold: true,
      halo: true,
    }),
  ];
}

function axes(
  pen: Pen,
  chart: PressureMapChart,
  { x, y, left, right, top, bottom }: Field,
  xTicks: readonly number[],
  yTicks: readonly number[],
): string[] {
  const { small, hair, line: thin } = pen.size;
  const soft = { size: small, colour: pen.soft } as const;
  return [
    rect(left, top, right - left, bottom - top, stroke(pen.ink, thin)),
    ...yTicks.map((tick) => line(left - small * 0.3, y(tick), left, y(tick), stroke(pen.ink, hair))),
    ...yTicks.map((tick) =>
      type(pen, left - small * 0.5, y(tick) + small * 0.35, String(tick), { ...soft, anchor: 'end' }),
    ),
    ...xTicks.map((tick) => line(x(tick), bottom, x(tick), bottom + small * 0.35, stroke(pen.ink, hair))),
    ...xTicks.map((tick) => {
      const half = textWidth(String(tick), small) / 2;
      return type(pen, kept(x(tick), half, right - half + small * 0.6), bottom + small * 1.4, String(tick), {
        ...soft,
        anchor: 'middle',
      });
    }),
    type(pen, 0, top - small * 0.8, chart.temperatureAxis, soft),
    type(pen, right, top - small * 0.8, chart.pressureUnit, { ...soft, anchor: 'end' }),
    type(pen, right, bottom + small * 2.65, chart.speedAxis, { ...soft, anchor: 'end' }),
  ];
}

/** The sheet's own points: the shape of the verdict, and its words beside it where they cover nothing else. */
function markTexts(
  pen: Pen,
  { x, y, left, right, top, bottom }: Field,
  limits: readonly MapMark[],
  taken: Box[],
): string[] {
  const { label, small } = pen.size;
  const side = label * 1.3;
  const inside = limits.filter(
    ({ speed, temperature }) => Number.isFinite(speed) && Number.isFinite(temperature),
  );
  for (const { speed, temperature } of inside)
    taken.push({ x: x(speed), y: y(temperature), half: side * 0.6 });
  return inside.flatMap(({ speed, temperature, mark, text }) => {
    const [px, py] = [x(speed), y(temperature)];
    const half = textWidth(text, small, true) / 2;
    const centre = kept(px, left + half + small * 0.4, right - half - small * 0.4);
    const free = (at: number): boolean =>
      at - small > top &&
      at + small * 0.4 < bottom &&
      taken.every((box) => Math.abs(box.x - centre) > box.half + half || Math.abs(box.y - at) > small * 1.4);
    const at = [1.5, -1.5, 2.9, -2.9, 4.3, -4.3].map((by) => py + by * small).find(free) ?? py - small * 1.5;
    taken.push({ x: centre, y: at, half });
    const far = Math.abs(at - py) > small * 2;
    return [
      far ? line(px, py, kept(px, centre - half, centre + half), at, stroke(pen.ink, pen.size.hair)) : '',
      `<circle cx="${num(px)}" cy="${num(py)}" r="${num(side * 0.56)}" fill="${pen.paper}"/>`,
      `<g data-mark="limit" data-verdict="${mark}">${verdictShape(pen, mark, px, py, side)}</g>`,
      type(pen, centre, at + small * 0.35, text, { size: small, anchor: 'middle', bold: true, halo: true }),
    ];
  });
}

import type { Field, GaugePoint, PressureLimit, PressureLine } from './pressure-field.ts';
import { drawnLimit, limitTexts } from './pressure-limits.ts';
import { finite, kept } from './svg/finite.ts';
import { line, num, polygon, polyline, stroke, svg, type } from './svg/marks.ts';
import { niceTicks } from './svg/nice-ticks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { spread } from './svg/spread.ts';
import { textWidth } from './svg/text-width.ts';

/** Gauge pressure against speed, in the units named on the axes. */
export interface PressureChart {
  /** Such as "rpm". */
  readonly speedAxis: string;
  /** Such as "psi". */
  readonly pressureAxis: string;
  readonly curves: readonly PressureLine[];
  readonly limits?: readonly PressureLimit[] | undefined;
  readonly gauge?: readonly GaugePoint[] | undefined;
  /** What the points are called, in the key. */
  readonly gaugeName?: string | undefined;
}

/** Predicted pressure over speed with its band, the limits it must keep and the gauge readings taken. */
export function pressureCurveSvg(chart: PressureChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small } = pen.size;
  const curves = chart.curves.map((curve) => ({ ...curve, points: drawable(curve.points) }));
  const gauge = (chart.gauge ?? []).filter(
    ({ speed, value }) => Number.isFinite(speed) && Number.isFinite(value),
  );
  const limits = (chart.limits ?? [])
    .filter(({ speed }) => Number.isFinite(speed))
    .map((limit) => ({ ...limit, lower: finite(limit.lower), upper: finite(limit.upper) }));
  const speeds = [...curves.flatMap(({ points }) => points), ...gauge, ...limits].map(({ speed }) => speed);
  const pressures = [
    ...curves.flatMap(({ points }) => points.flatMap(({ value, high }) => [value, high ?? 0])),
    ...gauge.map(({ value, half }) => value + (finite(half) ?? 0)),
    ...limits.flatMap(({ lower, upper }) => [lower ?? 0, upper ?? 0]),
  ];
  const fastest = Math.max(1, ...speeds) * 1.02;
  const highest = Math.max(1, ...pressures) * 1.08;
  const height = Math.round(kept(width * 0.58, label * 17, label * 30));
  const xTicks = niceTicks(0, fastest, kept(Math.floor(width / (label * 5)), 2, 8));
  const yTicks = niceTicks(0, highest, kept(Math.floor(height / (label * 3)), 2, 8));
  const yWide = Math.max(0, ...yTicks.map((tick) => textWidth(String(tick), small)));
  const names = Math.max(0, ...curves.map(({ name }) => textWidth(name, label, true)));
  const [left, right] = [yWide + small * 0.8, width - names - label * 0.8];
  const [top, bottom] = [small * 2, height - small * 3];
  const field: Field = {
    left,
    right,
    top,
    bottom,
    x: (speed) => left + kept(speed / fastest, 0, 1) * (right - left),
    y: (pressure) => bottom - kept(pressure / highest, 0, 1) * (bottom - top),
  };
  const key = gaugeKey(pen, chart, gauge, height);
  return svg(picture, pen, width, key.bottom, [
    ...axes(pen, chart, field, xTicks, yTicks),
    ...curves.map(({ points }) => band(pen, field, points)),
    ...curves.map((curve) => drawnCurve(pen, field, curve)),
    ...limits.flatMap((limit) => drawnLimit(pen, field, limit)),
    ...gauge.map((point) => drawnPoint(pen, field, point)),
    ...curveNames(pen, field, curves, width),
    ...limitTexts(pen, field, limits, curves, gauge),
    ...key.marks,
  ]);
}

type Points = PressureLine['points'];

function drawable(points: Points): Points {
  return points
    .filter(({ speed, value }) => Number.isFinite(speed) && Number.isFinite(value))
    .map((point) => ({ ...point, low: finite(point.low), high: finite(point.high) }))
    .toSorted((one, other) => one.speed - other.speed);
}

function axes(
  pen: Pen,
  chart: PressureChart,
  { x, y, left, right, top, bottom }: Field,
  xTicks: readonly number[],
  yTicks: readonly number[],
): string[] {
  const { small, hair, line: thin } = pen.size;
  const soft = { size: small, colour: pen.soft } as const;
  return [
    ...yTicks.map((tick) =>
      tick === 0 ? '' : line(left, y(tick), right, y(tick), stroke(pen.rule, hair / 2)),
    ),
    ...yTicks.map((tick) =>
      type(pen, left - small * 0.5, y(tick) + small * 0.35, String(tick), { ...soft, anchor: 'end' }),
    ),
    ...xTicks.map((tick) => line(x(tick), bottom, x(tick), bottom + small * 0.35, stroke(pen.ink, hair))),
    ...xTicks.map((tick) =>
      type(pen, x(tick), bottom + small * 1.4, String(tick), { ...soft, anchor: 'middle' }),
    ),
    line(left, bottom, right, bottom, stroke(pen.ink, thin)),
    line(left, top - small * 0.4, left, bottom, stroke(pen.ink, thin)),
    type(
      pen,
      left - small * 0.5 - textWidth(String(yTicks.at(-1) ?? ''), small),
      top - small * 0.9,
      chart.pressureAxis,
      soft,
    ),
    type(pen, right, bottom + small * 2.65, chart.speedAxis, { ...soft, anchor: 'end' }),
  ];
}

function band(pen: Pen, { x, y }: Field, points: Points): string {
  const within = points.filter(({ low, high }) => low !== undefined && high !== undefined);
  if (within.length < 2) return '';
  const over = within.map(({ speed, high }) => [x(speed), y(high!)] as const);
  const under = within.map(({ speed, low }) => [x(speed), y(low!)] as const).reverse();
  return `<g data-mark="band">${polygon([...over, ...under], pen.tint(1))}</g>`;
}

function drawnCurve(pen: Pen, { x, y }: Field, { style, points }: PressureLine): string {
  const { line: thin } = pen.size;
  const dash =
    style === 'solid'
      ? ''
      : style === 'dashed'
        ? `${num(thin * 5)} ${num(thin * 3)}`
        : `${num(thin * 1.2)} ${num(thin * 2.4)}`;
  const drawn = points.map(({ speed, value }) => [x(speed), y(value)] as const);
  const ink = `${stroke(pen.ink, thin * 1.3, dash)} stroke-linejoin="round"`;
  return `<g data-mark="curve">${polyline(drawn, ink)}</g>`;
}

/** Names at the right ends of their curves, kept apart. */
function curveNames(
  pen: Pen,
  { x, y, right, top, bottom }: Field,
  curves: readonly PressureLine[],
  width: number,
): string[] {
  const { label, hair } = pen.size;
  const named = curves
    .flatMap(({ name, points }) => {
      const last = points.at(-1);
      return last === undefined ? [] : [{ name, from: x(last.speed), x: y(last.value), width: label * 1.15 }];
    })
    .sort((one, other) => one.x - other.x);
  const places = spread(named, top - label, bottom + label * 0.5, 0);
  return named.flatMap(({ name, from, x: at }, i) => {
    const start = Math.min(right + label * 0.5, width);
    return [
      line(from, at, start - label * 0.15, places[i]!, stroke(pen.rule, hair)),
      type(pen, start, places[i]! + label * 0.35, name, { size: label, bold: true }),
    ];
  });
}

function drawnPoint(pen: Pen, { x, y }: Field, { speed, value, half, cold }: GaugePoint): string {
  const { line: thin, small } = pen.size;
  const [cx, cy] = [x(speed), y(value)];
  const spreadOf = finite(half);
  const whisker =
    spreadOf === undefined
      ? ''
      : line(cx, y(value - spreadOf), cx, y(value + spreadOf), stroke(pen.accent, thin));
  return `<g data-mark="gauge">${whisker}${dot(pen, cx, cy, small * 0.36, cold === true)}</g>`;
}

function dot(pen: Pen, x: number, y: number, r: number, hollow: boolean): string {
  const fill = hollow ? pen.paper : pen.accent;
  return `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" fill="${fill}" stroke="${pen.accent}" stroke-width="${num(pen.size.line)}"/>`;
}

function gaugeKey(
  pen: Pen,
  chart: PressureChart,
  gauge: readonly GaugePoint[],
  height: number,
): { readonly marks: readonly string[]; readonly bottom: number } {
  const { small } = pen.size;
  if (chart.gaugeName === undefined || gauge.length === 0) return { marks: [], bottom: height };
  const y = height + small * 0.7;
  const hollow = gauge.some(({ cold }) => cold === true);
  const full = gauge.some(({ cold }) => cold !== true);
  const dots = [...(full ? [false] : []), ...(hollow ? [true] : [])];
  const marks = dots.map((empty, i) =>
    dot(pen, small * (0.6 + i * 1.2), y - small * 0.32, small * 0.36, empty),
  );
  return {
    marks: [
      ...marks,
      type(pen, small * (0.6 + dots.length * 1.2), y, chart.gaugeName, { size: small, colour: pen.soft }),
    ],
    bottom: y + small * 0.5,
  };
}

import { finite, kept } from './svg/finite.ts';
import { line, num, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** A state of the engine and the figure it comes to. */
export interface RepairFigure {
  readonly name: string;
  readonly value: number;
  /** The figure as printed. */
  readonly text: string;
  /** Edges of its band. */
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

/** Repairs, each done alone, in the order given. */
export interface RepairChart {
  readonly asMeasured: RepairFigure;
  readonly repairs: readonly RepairFigure[];
  readonly asNew?: RepairFigure | undefined;
  /** The least that is asked for. */
  readonly required?: RepairFigure | undefined;
}

interface Bars {
  readonly x: (value: number) => number;
  readonly left: number;
  readonly right: number;
  readonly width: number;
  readonly wide: boolean;
}

/**
 * What each repair alone would gain: a bar from the figure as measured to the figure with it, the required
 * minimum as a line through all, the engine as new at the end.
 */
export function repairBarsSvg(chart: RepairChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, heavy, hair } = pen.size;
  const rows = [chart.asMeasured, ...chart.repairs, ...(chart.asNew ? [chart.asNew] : [])];
  const marks = [...rows, ...(chart.required ? [chart.required] : [])].flatMap(({ value, high }) => [
    value,
    high,
  ]);
  const most = Math.max(...marks.map((mark) => finite(mark) ?? 0), 0) || 1;
  const wide = width >= label * 32;
  const names = wide
    ? Math.min(width * 0.36, Math.max(...rows.map(({ name }) => textWidth(name, label))) + label)
    : 0;
  const figures = Math.max(...rows.map(({ text }) => textWidth(text, label, true))) + label * 0.6;
  const [left, right] = [names + hair, width - figures];
  const bars: Bars = {
    left,
    right,
    width,
    wide,
    x: (value) => left + kept(value / (most * 1.04), 0, 1) * (right - left),
  };
  const asked = chart.required && Number.isFinite(chart.required.value) ? chart.required : undefined;
  const top = asked ? label * 1.8 : label * 0.3;
  const start = finite(chart.asMeasured.value);
  let y = top;
  const drawn: string[] = [];
  const texts: string[] = [];
  rows.forEach((row, i) => {
    const kind = i === 0 ? 'as-measured' : row === chart.asNew ? 'as-new' : 'repair';
    if (kind === 'as-new') {
      drawn.push(line(0, y, width, y, stroke(pen.rule, hair)));
      y += label * 0.5;
    }
    const lines = wide
      ? wrapped(row.name, label, names - label * 0.6)
      : wrapped(row.name, label, width - label);
    const above = wide ? 0 : lines.length * label * 1.25;
    const deep = Math.max(label * 1.9, wide ? lines.length * label * 1.2 + label * 0.5 : 0);
    lines.forEach((words, k) => {
      const base = wide
        ? y + deep / 2 + label * 0.35 + (k - (lines.length - 1) / 2) * label * 1.2
        : y + label * (0.95 + k * 1.25);
      // Clear of the base line where names stand above their bars.
      const at = wide ? 0 : label * 0.4;
      texts.push(type(pen, at, base, words, { size: label, bold: kind !== 'repair', halo: true }));
    });
    drawn.push(drawnBar(pen, bars, row, kind, start, y + above + (deep - label * 1.1) / 2, label * 1.1));
    texts.push(
      type(pen, width, y + above + deep / 2 + label * 0.35, row.text, {
        size: label,
        anchor: 'end',
        bold: asked !== undefined && Number.isFinite(row.value) && row.value >= asked.value,
      }),
    );
    y += above + deep + (wide ? 0 : label * 0.25);
  });
  const base = line(left, top, left, y, stroke(pen.ink, pen.size.line));
  const from =
    start === undefined
      ? ''
      : line(
          bars.x(start),
          top,
          bars.x(start),
          y,
          stroke(pen.soft, hair, `${num(hair * 4)} ${num(hair * 3)}`),
        );
  const minimum = asked === undefined ? [] : required(pen, bars, asked, top, y, heavy);
  return svg(picture, pen, width, y + small * 0.3, [from, ...drawn, base, ...minimum, ...texts]);
}

function drawnBar(
  pen: Pen,
  { x, left }: Bars,
  row: RepairFigure,
  kind: string,
  start: number | undefined,
  y: number,
  height: number,
): string {
  const value = finite(row.value);
  if (value === undefined) return '';
  const { line: thin } = pen.size;
  const outline = `stroke="${pen.ink}" stroke-width="${num(thin)}"`;
  const parts: string[] = [];
  if (kind === 'repair' && start !== undefined) {
    const [a, b] = [x(Math.min(start, value)), x(Math.max(start, value))];
    // What was there before is only outlined faintly; the gain is solid, a loss is hollow.
    parts.push(rect(left, y, x(start) - left, height, pen.tint(1)));
    const fill = value >= start ? `fill="${pen.ink}"` : `fill="${pen.paper}"`;
    parts.push(rect(a, y, Math.max(b - a, thin), height, `${fill} ${outline}`));
  } else {
    const tint = kind === 'as-new' ? pen.tint(1) : pen.tint(3);
    parts.push(rect(left, y, x(value) - left, height, `${tint} ${outline}`));
  }
  const [low, high] = [finite(row.low), finite(row.high)];
  if (low !== undefined && high !== undefined) {
    const middle = y + height / 2;
    const cap = height * 0.22;
    const whisker = (colour: string, weight: number): string =>
      line(x(low), middle, x(high), middle, stroke(colour, weight)) +
      line(x(low), middle - cap, x(low), middle + cap, stroke(colour, weight)) +
      line(x(high), middle - cap, x(high), middle + cap, stroke(colour, weight));
    parts.push(whisker(pen.paper, thin * 2.4), whisker(pen.ink, thin * 0.8));
  }
  return `<g data-mark="${kind}" data-from="${num(kind === 'repair' && start !== undefined ? x(start) : left)}" data-to="${num(x(value))}">${parts.join('')}</g>`;
}

function required(
  pen: Pen,
  { x, width }: Bars,
  { name, value, text }: RepairFigure,
  top: number,
  bottom: number,
  heavy: number,
): string[] {
  const { label } = pen.size;
  const words = `${name} ${text}`;
  const at = x(value);
  const half = textWidth(words, label, true) / 2;
  const centre = kept(at, Math.min(half, width / 2), Math.max(width - half, width / 2));
  const head = label * 0.3;
  return [
    `<g data-mark="required" data-x="${num(at)}">`,
    line(at, top, at, bottom, stroke(pen.paper, heavy * 1.8)),
    line(at, top, at, bottom, stroke(pen.accent, heavy * 0.8)),
    polygon(
      [
        [at - head, top - head * 1.5],
        [at + head, top - head * 1.5],
        [at, top],
      ],
      `fill="${pen.accent}"`,
    ),
    type(pen, centre, label * 0.95, words, { size: label, anchor: 'middle', bold: true }),
    '</g>',
  ];
}

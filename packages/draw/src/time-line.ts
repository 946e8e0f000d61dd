import { finite, kept } from './svg/finite.ts';
import { hatched } from './svg/hatched.ts';
import { line, num, rect, stroke, svg, type } from './svg/marks.ts';
import { niceTicks } from './svg/nice-ticks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

interface TimeRow {
  readonly name: string;
  /** Days from today, by the most likely times. */
  readonly start: number;
  readonly finish: number;
  /** If it takes the longest it may. */
  readonly latest: number;
  /** Days it could be later without moving the end. */
  readonly slack: number;
  /** On the longest way. */
  readonly critical: boolean;
  /** Beside the bar, such as "sets the date in 72 %". */
  readonly text: string;
}

export interface TimeChart {
  /** What the axis counts in. */
  readonly unit: { readonly days: number; readonly name: string };
  readonly rows: readonly TimeRow[];
  readonly due?: { readonly days: number; readonly text: string } | undefined;
  /** When all is done: one in ten, one in two, nine in ten. */
  readonly end?:
    | { readonly early: number; readonly middle: number; readonly late: number; readonly text: string }
    | undefined;
}

interface Field {
  readonly x: (days: number) => number;
  readonly left: number;
  readonly right: number;
  readonly width: number;
  readonly wide: boolean;
}

const days = (value: number): number => kept(finite(value) ?? 0, 0, 100_000);

/**
 * Tasks as bars over days from today: hatched and bold where the date hangs on them, plain with a dotted tail as long
 * as they could be late; a whisker to the longest each may take; the date as a post through all.
 */
export function timeLineSvg(chart: TimeChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, hair, heavy } = pen.size;
  const { rows, due, end } = chart;
  const last = Math.max(
    1,
    ...rows.map(({ latest }) => days(latest)),
    days(due?.days ?? 0),
    days(end?.late ?? 0),
  );
  const wide = width >= label * 34;
  const names = wide
    ? Math.min(width * 0.34, Math.max(0, ...rows.map(({ name }) => textWidth(name, label, true))) + label)
    : 0;
  const [left, right] = [names + (wide ? hair : small * 0.5), width - label * 0.6];
  const field: Field = {
    left,
    right,
    width,
    wide,
    x: (at) => left + (days(at) / (last * 1.03)) * (right - left),
  };
  const head = due ? small * 2 : small * 0.6;
  let y = head;
  const bars: string[] = [];
  for (const row of rows) {
    const [marks, deep] = taskRow(pen, field, row, y);
    bars.push(...marks);
    y += deep;
  }
  if (end) {
    bars.push(line(0, y, width, y, stroke(pen.rule, hair)));
    y += small * 0.5;
    const [marks, deep] = endRow(pen, field, end, y);
    bars.push(...marks);
    y += deep;
  }
  const bottom = y + small * 0.3;
  const height = bottom + small * 2.9;
  return svg(picture, pen, width, height, [
    ...axis(pen, chart, field, head, bottom, last),
    // Under the bars, so that no word of theirs is crossed out.
    ...(due && finite(due.days) !== undefined ? duePost(pen, field, due, bottom, heavy) : []),
    ...bars,
  ]);
}

function axis(
  pen: Pen,
  { unit }: TimeChart,
  { x, left, right }: Field,
  top: number,
  bottom: number,
  last: number,
) {
  const { small, hair, line: thin } = pen.size;
  const per = unit.days > 0 ? unit.days : 1;
  const ticks = niceTicks(0, last / per, kept(Math.floor((right - left) / (small * 4)), 2, 10)).filter((at) =>
    Number.isInteger(at),
  );
  return [
    ...ticks.flatMap((at) => [
      line(x(at * per), top, x(at * per), bottom, stroke(pen.rule, hair / 2)),
      type(pen, x(at * per), bottom + small * 1.3, String(at), {
        size: small,
        colour: pen.soft,
        anchor: 'middle',
      }),
    ]),
    line(left, bottom, right, bottom, stroke(pen.ink, thin)),
    type(pen, right, bottom + small * 2.6, `${unit.name} from today`, {
      size: small,
      colour: pen.soft,
      anchor: 'end',
    }),
  ];
}

/** @returns the marks of a row and how deep it is */
function taskRow(
  pen: Pen,
  { x, left, right, width, wide }: Field,
  row: TimeRow,
  y: number,
): [string[], number] {
  const { label, small, hair, line: thin } = pen.size;
  const bold = row.critical;
  const lines = wrapped(row.name, label, wide ? left - label * 0.6 : width - label * 0.6, bold);
  const above = wide ? 0 : lines.length * label * 1.2;
  const thick = label * 0.95;
  const at = y + above + label * 0.35;
  const [from, to] = [x(row.start), Math.max(x(row.finish), x(row.start) + thin)];
  const far = x(Math.max(row.latest, row.finish));
  const middle = at + thick / 2;
  const words = row.text === '' ? '' : row.text;
  const fits = far + small * 0.6 + textWidth(words, small) <= right;
  const below = words !== '' && !fits ? small * 1.25 : 0;
  const free = row.slack > 0 ? x(row.finish + row.slack) : to;
  const deep = Math.max(
    above + thick + label * 0.75 + below,
    wide ? lines.length * label * 1.2 + label * 0.4 : 0,
  );
  return [
    [
      `<g data-mark="${bold ? 'critical' : 'task'}" data-x="${num(from)}" data-y="${num(at)}">`,
      ...lines.map((named, k) =>
        type(pen, 0, y + label * 1.05 + k * label * 1.2, named, { size: label, bold }),
      ),
      ...(free > to
        ? [line(to, middle, free, middle, stroke(pen.soft, thin, `${num(thin)} ${num(thin * 2.5)}`))]
        : []),
      rect(from, at, to - from, thick, pen.tint(bold ? 3 : 1)),
      bold ? hatched(from, at, to - from, thick, small * 0.55, pen.ink, hair) : '',
      rect(from, at, to - from, thick, stroke(pen.ink, bold ? thin * 1.5 : hair)),
      ...(far > to
        ? [
            line(to, middle, far, middle, stroke(pen.ink, thin)),
            line(far, at + thick * 0.15, far, at + thick * 0.85, stroke(pen.ink, thin)),
          ]
        : []),
      words === ''
        ? ''
        : fits
          ? type(
              pen,
              Math.max(far, free) + small * 0.6 + textWidth(words, small) <= right
                ? Math.max(far, free) + small * 0.6
                : far + small * 0.6,
              middle + small * 0.35,
              words,
              { size: small, colour: pen.soft, halo: true },
            )
          : type(
              pen,
              Math.min(from, Math.max(0, right - textWidth(words, small))),
              at + thick + small * 1.1,
              words,
              {
                size: small,
                colour: pen.soft,
                halo: true,
              },
            ),
      '</g>',
    ],
    deep,
  ];
}

function endRow(
  pen: Pen,
  { x, left, width, wide }: Field,
  end: NonNullable<TimeChart['end']>,
  y: number,
): [string[], number] {
  const { label, small, line: thin, heavy } = pen.size;
  const above = wide ? 0 : label * 1.2;
  const middle = y + above + label * 0.85;
  const [early, half, late] = [x(end.early), x(end.middle), x(end.late)];
  const post = (at: number, tall: number, weight: number): string =>
    line(at, middle - tall, at, middle + tall, stroke(pen.ink, weight));
  return [
    [
      `<g data-mark="end" data-x="${num(half)}" data-y="${num(middle)}">`,
      ...wrapped(end.text, label, wide ? left - label * 0.6 : width, true)
        .slice(0, 1)
        .map((words) => type(pen, 0, y + label * 1.05, words, { size: label, bold: true })),
      line(early, middle, late, middle, stroke(pen.ink, thin)),
      post(early, small * 0.35, thin),
      post(half, small * 0.6, heavy),
      post(late, small * 0.35, thin),
      '</g>',
    ],
    above + label * 1.7,
  ];
}

function duePost(
  pen: Pen,
  { x, left }: Field,
  due: NonNullable<TimeChart['due']>,
  bottom: number,
  heavy: number,
): string[] {
  const { small } = pen.size;
  const at = x(due.days);
  const before = at - small * 0.5 - textWidth(due.text, small, true) > left;
  return [
    `<g data-mark="due">${line(at, small * 0.4, at, bottom, stroke(pen.accent, heavy))}</g>`,
    type(pen, before ? at - small * 0.5 : at + small * 0.5, small * 1.2, due.text, {
      size: small,
      bold: true,
      colour: pen.accent,
      anchor: before ? 'end' : 'start',
      halo: true,
    }),
  ];
}

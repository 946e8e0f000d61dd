import type { RepairFigure } from './repair-bars.ts';
import { escaped } from './svg/escaped.ts';
import { finite, kept } from './svg/finite.ts';
import { hatched } from './svg/hatched.ts';
import { line, num, polygon, polyline, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** One tread: what a repair's worn parts carry of the loss. */
export interface StairTread {
  /** Given back as `data-tread`. */
  readonly id: string;
  readonly name: string;
  /** Its fair share, in the unit of the figures; negative where the part does better than new. */
  readonly share: number;
  /** The share as printed. */
  readonly text: string;
  /** What the gauge would show with this repair made besides those lifted, and how that is printed. */
  readonly alone?: { readonly value: number; readonly text: string } | undefined;
  /** Repaired in thought. */
  readonly lifted?: boolean | undefined;
  /** What it carried before it was lifted. */
  readonly carried?: number | undefined;
}

/** From the pressure as new down to the pressure now. */
export interface PressureStair {
  readonly asNew: RepairFigure;
  readonly now: RepairFigure;
  readonly treads: readonly StairTread[];
  /** The least that is asked for. */
  readonly required?: RepairFigure | undefined;
  /** Treads as high as a finger's target, each a switch in the tab order. */
  readonly tappable?: boolean | undefined;
}

interface Field {
  readonly x: (value: number) => number;
  readonly left: number;
  readonly right: number;
  readonly wide: boolean;
  readonly width: number;
  /** Where the names and the figures stand. */
  readonly names: number;
  readonly tappable: boolean;
}

/**
 * The pressure stair. It goes down from right to left: each row steps back by what its parts carry, a solid block;
 * the hollow dot shows how far that repair would bring the gauge by itself. A lifted tread hangs hatched over the
 * step it has left. The required minimum is a line across all of them.
 */
export function pressureStairSvg(stair: PressureStair, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, hair, target, gap } = pen.size;
  const field = fieldOf(pen, stair, width);
  const { wide, x, left, names } = field;
  const asked = stair.required && Number.isFinite(stair.required.value) ? stair.required : undefined;
  const top = asked ? label * 1.9 : label * 0.3;
  const asNew = finite(stair.asNew.value) ?? 0;
  const now = finite(stair.now.value);
  const under: string[] = [];
  const over: string[] = [];
  const steps: [number, number][] = [[x(asNew), top]];
  let y = top;

  const ends = (figure: RepairFigure, kind: string, tint: number): void => {
    const banded = finite(figure.low) !== undefined && finite(figure.high) !== undefined;
    const words = label * 1.9;
    // In the narrow setting the band would run through the words.
    const height = words + (!wide && banded ? label : 0);
    const base = y + words / 2 + label * 0.35;
    under.push(
      `<g data-mark="${kind}" data-to="${num(x(figure.value))}">${rect(left, y, x(figure.value) - left, height, pen.tint(tint))}${whisker(pen, field, figure, wide ? y + words / 2 : y + words + label * 0.35)}</g>`,
    );
    over.push(
      type(pen, wide ? 0 : left + label * 0.4, base, figure.name, { size: label, bold: true, halo: !wide }),
      type(pen, width, base, figure.text, { size: label, anchor: 'end', bold: true, halo: true }),
    );
    y += height;
  };

  ends(stair.asNew, 'as-new', 1);
  let before = asNew;
  for (const tread of stair.treads) {
    const share = finite(tread.share) ?? 0;
    const after = before - share;
    const lines = wrapped(tread.name, label, (wide ? names : width - figureWidth(pen, stair)) - label * 0.6);
    // In the narrow setting the words of both sides stand over the block, none of them in it.
    const beside = tread.alone ? label * 2.2 : label * 1.25;
    const head = wide ? 0 : Math.max(lines.length * label * 1.25, beside) + small * 0.4;
    const block = wide
      ? Math.max(label * 2.8, lines.length * label * 1.2 + label * 0.9)
      : label * (stair.tappable ? 2.2 : 1.5);
    const height = Math.max(head + block, stair.tappable ? target + gap : 0);
    const [from, deep] = [y + head, height - head];
    const [a, b] = [Math.min(before, after), Math.max(before, after)];
    under.push(rect(left, y, x(a) - left, height, pen.tint(1)));
    if (head > 0) under.push(rect(x(a), y, x(before) - x(a), head, pen.tint(1)));
    const marks: string[] = [];
    if (tread.lifted) marks.push(hanging(pen, field, tread, before, from, deep));
    if (x(b) - x(a) >= 0.05)
      marks.push(
        rect(
          x(a),
          from,
          Math.max(x(b) - x(a), hair),
          deep,
          share >= 0
            ? `fill="${pen.ink}"`
            : `fill="${pen.paper}" stroke="${pen.ink}" stroke-width="${num(pen.size.line)}"`,
        ),
      );
    steps.push([x(before), y + height], [x(after), y + height]);
    if (tread.alone && now !== undefined && !tread.lifted)
      over.push(dotted(pen, field, now, tread.alone.value, from + deep / 2));
    const base = wide ? y + height / 2 : y;
    lines.forEach((words, k) => {
      over.push(
        type(
          pen,
          wide ? 0 : left + label * 0.4,
          wide
            ? base + label * 0.35 + (k - (lines.length - 1) / 2) * label * 1.2
            : base + label * (1 + k * 1.25),
          words,
          { size: label, halo: !wide, colour: tread.lifted ? pen.soft : pen.ink },
        ),
      );
    });
    const figures = wide ? y + height / 2 + (tread.alone ? -label * 0.12 : label * 0.35) : y + label;
    over.push(type(pen, width, figures, tread.text, { size: label, anchor: 'end', bold: true, halo: true }));
    if (tread.alone)
      over.push(
        type(pen, width, figures + label * 1.2, tread.alone.text, {
          size: small,
          anchor: 'end',
          colour: pen.soft,
          halo: true,
        }),
      );
    const where = `data-mark="tread" data-tread="${escaped(tread.id)}" data-from="${num(x(after))}" data-to="${num(x(before))}"${tread.lifted ? ' data-lifted="true"' : ''}`;
    const switched = field.tappable
      ? ` role="button" tabindex="0" aria-pressed="${tread.lifted === true}" aria-label="${escaped(`${tread.name}, ${tread.text}`)}"`
      : '';
    under.push(
      `<g ${where}${switched}>${rect(0, y, width, Math.max(0, height - (field.tappable ? gap : 0)), 'fill="transparent"')}${marks.join('')}</g>`,
    );
    y += height;
    before = after;
  }
  ends(stair.now, 'now', 3);
  steps.push([x(before), y]);
  const lines = [
    polyline(steps, `${stroke(pen.ink, pen.size.line)} stroke-linejoin="miter"`),
    line(left, top, left, y, stroke(pen.ink, pen.size.line)),
    now === undefined
      ? ''
      : line(x(now), top, x(now), y, stroke(pen.soft, hair, `${num(hair * 4)} ${num(hair * 3)}`)),
  ];
  return svg(
    picture,
    pen,
    width,
    y + small * 0.3,
    [...under, ...lines, ...(asked ? required(pen, field, asked, top, y) : []), ...over],
    field.tappable ? 'group' : 'img',
  );
}

function figureWidth(pen: Pen, { treads, asNew, now }: PressureStair): number {
  const { label, small } = pen.size;
  return (
    Math.max(
      ...[asNew.text, now.text, ...treads.map(({ text }) => text)].map((text) =>
        textWidth(text, label, true),
      ),
      ...treads.map(({ alone }) => textWidth(alone?.text ?? '', small)),
    ) +
    label * 0.8
  );
}

function fieldOf(pen: Pen, stair: PressureStair, width: number): Field {
  const { label, hair } = pen.size;
  const wide = width >= label * 32;
  const named = [stair.asNew.name, stair.now.name, ...stair.treads.map(({ name }) => name)];
  const names = wide
    ? Math.min(width * 0.34, Math.max(...named.map((name) => textWidth(name, label, true))) + label)
    : 0;
  let level = finite(stair.asNew.value) ?? 0;
  const levels = stair.treads.map(({ share }) => {
    level -= finite(share) ?? 0;
    return level;
  });
  const most = Math.max(
    finite(stair.asNew.value) ?? 0,
    finite(stair.now.high) ?? finite(stair.now.value) ?? 0,
    finite(stair.required?.value) ?? 0,
    ...levels,
    ...stair.treads.map(({ alone }) => finite(alone?.value) ?? 0),
    0,
  );
  const left = names + hair;
  // In the narrow setting figures stand over the stair, on the lines of their names.
  const right = wide ? width - figureWidth(pen, stair) : width - hair;
  return {
    wide,
    width,
    names,
    left,
    right,
    tappable: stair.tappable === true,
    x: (value) => left + kept(most > 0 ? (finite(value) ?? 0) / (most * 1.02) : 0, 0, 1) * (right - left),
  };
}

/** A lifted tread: hatched, over the step it has left and as wide as what it carried. */
function hanging(
  pen: Pen,
  { x }: Field,
  { carried }: StairTread,
  level: number,
  y: number,
  deep: number,
): string {
  const wide = finite(carried) ?? 0;
  const [from, to] = [x(level - Math.max(0, wide)), x(level)];
  const height = deep * 0.56;
  const { hair, line: thin } = pen.size;
  return (
    rect(from, y, to - from, height, `fill="${pen.paper}"`) +
    hatched(from, y, to - from, height, hair * 6, pen.soft, hair) +
    rect(from, y, to - from, height, stroke(pen.ink, thin * 0.8, `${num(hair * 5)} ${num(hair * 3)}`))
  );
}

/** From the pressure now to what one repair by itself would bring. */
function dotted(pen: Pen, { x }: Field, now: number, alone: number, y: number): string {
  const value = finite(alone);
  if (value === undefined) return '';
  const { small, line: thin } = pen.size;
  const r = small * 0.3;
  return (
    `<g data-mark="alone" data-to="${num(x(value))}">` +
    `${line(x(now), y, x(value), y, stroke(pen.paper, thin * 2.4))}${line(x(now), y, x(value), y, stroke(pen.ink, thin))}` +
    `<circle cx="${num(x(value))}" cy="${num(y)}" r="${num(r)}" fill="${pen.paper}" stroke="${pen.ink}" stroke-width="${num(thin)}"/></g>`
  );
}

function whisker(pen: Pen, { x }: Field, { low, high }: RepairFigure, y: number): string {
  const [a, b] = [finite(low), finite(high)];
  if (a === undefined || b === undefined) return '';
  const { line: thin, small } = pen.size;
  const cap = small * 0.4;
  return [a, b]
    .map((edge) => line(x(edge), y - cap, x(edge), y + cap, stroke(pen.ink, thin)))
    .concat(line(x(a), y, x(b), y, stroke(pen.ink, thin)))
    .join('');
}

function required(
  pen: Pen,
  { x, width }: Field,
  { name, value, text }: RepairFigure,
  top: number,
  bottom: number,
): string[] {
  const { label, heavy } = pen.size;
  const words = `${name} ${text}`.trim();
  const at = x(value);
  const half = textWidth(words, label, true) / 2;
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
    type(pen, kept(at, Math.min(half, width / 2), Math.max(width - half, width / 2)), label * 0.95, words, {
      size: label,
      anchor: 'middle',
      bold: true,
    }),
    '</g>',
  ];
}

import { isDrawable } from './svg/drawable.ts';
import { line, num, rect, stroke, svg, type } from './svg/marks.ts';
import { penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';

/** Load by length: what the drawing wants of a spring, and what springs do. */
export interface SpringLine {
  readonly lengthAxis: string;
  readonly loadAxis: string;
  /** What is wanted at a length. */
  readonly wanted: readonly {
    readonly at: number;
    readonly lower: number;
    readonly upper: number;
    readonly text: string;
  }[];
  /** Free length of the drawing's spring, from which its line rises. */
  readonly free?: number | undefined;
  /** What was read; of several springs the one that decides is named. */
  readonly read: readonly {
    readonly at: number;
    readonly load: number;
    readonly text?: string | undefined;
  }[];
  /** Lengths of the spring itself: free, solid; measured or of the drawing. */
  readonly lengths: readonly { readonly at: number; readonly text: string; readonly measured: boolean }[];
  readonly words: { readonly wanted: string; readonly read: string };
}

/** Loads against lengths, short and heavy to the left; bars are the limits, dots what was read, at rest on the base. */
export function springLineSvg(whole: SpringLine, picture: Picture): string {
  const spring: SpringLine = {
    ...whole,
    wanted: whole.wanted.filter(({ at, lower, upper }) => [at, lower, upper].every(isDrawable)),
    read: whole.read.filter(({ at, load }) => isDrawable(at) && isDrawable(load)),
    lengths: whole.lengths.filter(({ at }) => isDrawable(at)),
    free: isDrawable(whole.free) ? whole.free : undefined,
  };
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, hair, line: thin, heavy } = pen.size;
  const lengths = [
    ...spring.wanted.map(({ at }) => at),
    ...spring.read.map(({ at }) => at),
    ...spring.lengths.map(({ at }) => at),
    ...(spring.free === undefined ? [] : [spring.free]),
  ];
  const loads = [...spring.wanted.map(({ upper }) => upper), ...spring.read.map(({ load }) => load)];
  const [least, greatest] = [Math.min(...lengths, Infinity), Math.max(...lengths, -Infinity)];
  const span = greatest > least ? greatest - least : 1;
  const most = Math.max(0, ...loads) * 1.12 || 1;
  const [left, top] = [small * 1.2, label * 2.2];
  const [across, up] = [width - left - small * 2, Math.min(width * 0.5, label * 17)];
  const bottom = top + up;
  const x = (length: number): number =>
    left + across * (0.05 + (0.82 * (length - (Number.isFinite(least) ? least : 0))) / span);
  const y = (load: number): number => bottom - up * (Math.max(0, load) / most);
  const marks: string[] = [
    line(left, bottom, left + across, bottom, stroke(pen.ink, thin)),
    type(pen, left, small * 1.1, spring.loadAxis, { size: small, colour: pen.soft }),
    type(pen, left + across, bottom + small * 4.4, spring.lengthAxis, {
      size: small,
      anchor: 'end',
      colour: pen.soft,
    }),
  ];
  const middles = [
    ...spring.wanted.map(({ at, lower, upper }) => [x(at), y((lower + upper) / 2)] as const),
    ...(spring.free !== undefined ? [[x(spring.free), y(0)] as const] : []),
  ].sort((a, b) => a[0] - b[0]);
  const [first, last] = [middles[0], middles.at(-1)];
  if (first && last && first !== last)
    marks.push(
      line(first[0], first[1], last[0], last[1], stroke(pen.soft, hair * 1.5, `${num(heavy)} ${num(heavy)}`)),
    );
  const bar = label * 0.9;
  for (const { at, lower, upper, text } of spring.wanted) {
    const [cx, high, low] = [x(at), y(upper), y(lower)];
    marks.push(
      `<g data-mark="wanted">${rect(cx - bar / 2, high, bar, low - high, `${pen.tint(2)} stroke="${pen.ink}" stroke-width="${num(thin)}"`)}</g>`,
      type(pen, cx - bar * 0.8, (high + low) / 2 + small * 0.35, text, {
        size: small,
        anchor: cx > left + across / 3 ? 'end' : 'start',
        halo: true,
        ...(cx > left + across / 3 ? {} : { more: `dx="${num(bar * 1.8)}" dy="${num(-small)}"` }),
      }),
    );
  }
  for (const { at, load, text } of spring.read) {
    const [cx, cy] = [x(at), y(load)];
    marks.push(
      `<circle data-mark="read" cx="${num(cx)}" cy="${num(cy)}" r="${num(label * 0.24)}" fill="${pen.ink}" stroke="${pen.paper}" stroke-width="${num(thin / 2)}"/>`,
    );
    if (text === undefined) continue;
    // To the right, but over the dot where a bar stands in the way.
    const blocked = spring.wanted.some(
      ({ at: other }) => x(other) > cx + bar && x(other) < cx + bar * 1.5 + textWidth(text, label, true),
    );
    marks.push(
      blocked
        ? type(pen, cx, cy - label * 0.6, text, { size: label, anchor: 'middle', bold: true, halo: true })
        : type(pen, cx + bar * 0.8, cy + small * 0.9, text, { size: label, bold: true, halo: true }),
    );
  }
  let row = 0;
  for (const { at, text, measured } of spring.lengths) {
    const cx = x(at);
    const to = cx + textWidth(text, small) > width ? 'end' : 'start';
    marks.push(
      line(
        cx,
        bottom - label * 0.8,
        cx,
        bottom + small * 0.6,
        stroke(pen.ink, measured ? heavy : thin, measured ? '' : `${num(thin * 2)}`),
      ),
      type(pen, cx, bottom + small * (1.7 + 1.25 * (row++ % 2)), text, {
        size: small,
        anchor: to,
        bold: measured,
      }),
    );
  }
  const key = bottom + small * 6.4;
  marks.push(
    rect(
      left,
      key - small * 0.9,
      bar,
      small,
      `${pen.tint(2)} stroke="${pen.ink}" stroke-width="${num(thin)}"`,
    ),
    type(pen, left + bar * 1.5, key, spring.words.wanted, { size: small }),
    `<circle cx="${num(left + bar * 3 + textWidth(spring.words.wanted, small))}" cy="${num(key - small * 0.35)}" r="${num(label * 0.24)}" fill="${pen.ink}"/>`,
    type(pen, left + bar * 3.6 + textWidth(spring.words.wanted, small), key, spring.words.read, {
      size: small,
    }),
  );
  return svg(picture, pen, width, key + small * 0.8, marks);
}

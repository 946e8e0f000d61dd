import { escaped } from './svg/escaped.ts';
import { kept } from './svg/finite.ts';
import { line, num, polyline, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** A cover and what it is about to hide. */
export interface ClosingCover {
  /** Given back as `data-cover`. */
  readonly id?: string | undefined;
  readonly name: string;
  /** To reopen it once closed; the width of its lid. */
  readonly hours: number;
  readonly hoursText: string;
  /** May be closed, is held back, has been closed, a hold was passed. */
  readonly state: 'open' | 'held' | 'closed' | 'passed';
  readonly stateText: string;
  /** How many characteristics are proven, still open, out. */
  readonly proven: number;
  readonly open: number;
  readonly out: number;
}

/** The covers in the order they go on. */
export interface ClosingLine {
  readonly covers: readonly ClosingCover[];
  readonly words: { readonly proven: string; readonly open: string; readonly out: string };
}

/**
 * The closing line: each cover a lid on the line, as wide as it is dear to reopen, and below it on a thread
 * what it hides, a mark for each characteristic. Side by side where there is room, else down the page.
 */
export function closingLineSvg(closing: ClosingLine, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label } = pen.size;
  const covers = closing.covers.map((cover) => ({
    ...cover,
    hours: Number.isFinite(cover.hours) ? Math.max(0, cover.hours) : 0,
    proven: count(cover.proven),
    open: count(cover.open),
    out: count(cover.out),
  }));
  const longest = Math.max(1e-9, ...covers.map(({ hours }) => hours));
  const column = width / Math.max(1, covers.length);
  return column >= label * 9.5
    ? sideBySide(closing, covers, longest, picture, pen, width, column)
    : downThePage(closing, covers, longest, picture, pen, width);
}

function count(value: number): number {
  return Number.isFinite(value) ? Math.max(0, Math.trunc(value)) : 0;
}

function sideBySide(
  closing: ClosingLine,
  covers: readonly ClosingCover[],
  longest: number,
  picture: Picture,
  pen: Pen,
  width: number,
  column: number,
): string {
  const { label, small, heavy, line: thin, hair } = pen.size;
  const room = column - label;
  const names = covers.map(({ name }, i) => wrapped(`${i + 1}  ${name}`, label, room, true));
  const states = covers.map(({ stateText }) => wrapped(stateText, label, room - label * 1.6, true));
  const nameRows = Math.max(1, ...names.map((lines) => lines.length));
  const stateRows = Math.max(1, ...states.map((lines) => lines.length));
  const lidHeight = label * 0.75;
  const rail = (nameRows + stateRows) * label * 1.3 + label * 1.3 + lidHeight;
  const hangs: number[] = [];
  const drawn = covers.map((cover, i) => {
    const x = i * column + thin;
    const marks: string[] = [];
    names[i]!.forEach((words, k) => {
      marks.push(
        type(pen, x, label * (1 + 1.3 * (k + nameRows - names[i]!.length)), words, {
          size: label,
          bold: true,
        }),
      );
    });
    const stateY = nameRows * label * 1.3 + label * 1.15;
    marks.push(stateShape(pen, cover.state, x + label * 0.55, stateY - label * 0.35, label * 1.1));
    states[i]!.forEach((words, k) => {
      marks.push(type(pen, x + label * 1.5, stateY + k * label * 1.3, words, { size: label }));
    });
    marks.push(
      lid(pen, cover, x, rail - lidHeight, Math.max(heavy, (cover.hours / longest) * room), lidHeight),
    );
    marks.push(
      type(pen, x + label * 0.9, rail + small * 1.45, cover.hoursText, { size: small, colour: pen.soft }),
    );
    const below = tally(pen, closing.words, cover, x + label * 0.9, rail + small * 2.1, room - label * 0.9);
    marks.push(
      line(x + label * 0.3, rail, x + label * 0.3, below.thread, stroke(pen.ink, hair)),
      ...below.marks,
    );
    hangs.push(below.bottom);
    return grouped(cover, marks);
  });
  const beam = line(0, rail, width, rail, stroke(pen.ink, thin));
  return svg(picture, pen, width, Math.max(rail + small * 3, ...hangs), [beam, ...drawn]);
}

function downThePage(
  closing: ClosingLine,
  covers: readonly ClosingCover[],
  longest: number,
  picture: Picture,
  pen: Pen,
  width: number,
): string {
  const { label, small, heavy, hair } = pen.size;
  let y = 0;
  const drawn = covers.map((cover, i) => {
    const marks: string[] = [];
    const lines = wrapped(`${i + 1}  ${cover.name}`, label, width, true);
    lines.forEach((words, k) => {
      marks.push(type(pen, 0, y + label * (1.1 + 1.3 * k), words, { size: label, bold: true }));
    });
    y += lines.length * label * 1.3 + label * 0.35;
    const hours = textWidth(cover.hoursText, small) + label * 0.6;
    const full = width - hours;
    marks.push(line(0, y + label * 0.75, full, y + label * 0.75, stroke(pen.rule, hair)));
    marks.push(lid(pen, cover, 0, y, Math.max(heavy, (cover.hours / longest) * full), label * 0.75));
    marks.push(
      type(pen, width, y + small * 0.85, cover.hoursText, { size: small, anchor: 'end', colour: pen.soft }),
    );
    y += label * 0.75;
    const top = y;
    const states = wrapped(cover.stateText, label, width - label * 3);
    marks.push(stateShape(pen, cover.state, label * 1.5, y + label * 1.15, label * 1.1));
    states.forEach((words, k) => {
      marks.push(type(pen, label * 2.5, y + label * (1.5 + 1.3 * k), words, { size: label }));
    });
    y += label * (0.9 + 1.3 * states.length);
    const below = tally(pen, closing.words, cover, label * 0.9, y, width - label * 0.9);
    marks.push(line(label * 0.3, top, label * 0.3, below.thread, stroke(pen.ink, hair)), ...below.marks);
    y = below.bottom + label * 0.9;
    return grouped(cover, marks);
  });
  return svg(picture, pen, width, Math.max(small * 2, y), drawn);
}

function grouped(cover: ClosingCover, marks: readonly string[]): string {
  const id = cover.id === undefined ? '' : ` data-cover="${escaped(cover.id)}"`;
  return `<g data-mark="cover" data-state="${cover.state}"${id}>${marks.join('')}</g>`;
}

/** Filled when on, outlined while off, hatched when it is held back. */
function lid(pen: Pen, cover: ClosingCover, x: number, y: number, width: number, height: number): string {
  const { line: thin, hair } = pen.size;
  const outline = `stroke="${pen.ink}" stroke-width="${num(thin)}"`;
  const fill =
    cover.state === 'closed' || cover.state === 'passed' ? `fill="${pen.ink}"` : `fill="${pen.paper}"`;
  const hatch: string[] = [];
  if (cover.state === 'held') {
    for (let at = x + height; at <= x + width; at += height * 0.6)
      hatch.push(line(at, y, at - height, y + height, stroke(pen.ink, hair)));
  }
  return `<g data-mark="lid" data-width="${num(width)}">${rect(x, y, width, height, `${fill} ${outline}`)}${hatch.join('')}</g>`;
}

/** A ring: may be closed; a cross: held; a disc: closed; a half disc: a hold was passed. */
function stateShape(pen: Pen, state: ClosingCover['state'], x: number, y: number, side: number): string {
  const r = side * 0.4;
  const edge = stroke(pen.ink, side * 0.1);
  const circle = (attributes: string): string =>
    `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" ${attributes}/>`;
  if (state === 'open') return circle(edge);
  if (state === 'closed') return circle(`fill="${pen.ink}"`);
  if (state === 'passed') {
    const half = `M${num(x)} ${num(y - r)}A${num(r)} ${num(r)} 0 0 0 ${num(x)} ${num(y + r)}Z`;
    return `${circle(edge)}<path d="${half}" fill="${pen.ink}"/>`;
  }
  return cross(x, y, r, stroke(pen.ink, side * 0.2));
}

function cross(x: number, y: number, r: number, ink: string): string {
  return (
    polyline(
      [
        [x - r, y - r],
        [x + r, y + r],
      ],
      ink,
    ) +
    polyline(
      [
        [x - r, y + r],
        [x + r, y - r],
      ],
      ink,
    )
  );
}

/** A mark for each characteristic and a line of words for each kind, hanging on the thread. */
function tally(
  pen: Pen,
  words: ClosingLine['words'],
  cover: ClosingCover,
  x: number,
  y: number,
  room: number,
): { readonly marks: readonly string[]; readonly thread: number; readonly bottom: number } {
  const { small, line: thin } = pen.size;
  const step = small * 0.95;
  const perRow = Math.max(1, Math.floor(room / step));
  const kinds = [
    {
      n: cover.out,
      word: words.out,
      mark: (cx: number, cy: number) => cross(cx, cy, small * 0.26, stroke(pen.ink, thin * 1.2)),
    },
    { n: cover.open, word: words.open, mark: (cx: number, cy: number) => ring(pen, cx, cy, false) },
    { n: cover.proven, word: words.proven, mark: (cx: number, cy: number) => ring(pen, cx, cy, true) },
  ].filter(({ n }) => n > 0);
  const marks: string[] = [];
  let [at, thread] = [y, y];
  for (const { n, word, mark } of kinds) {
    thread = at + small * 0.9;
    marks.push(type(pen, x, at + small * 1.25, `${n} ${word}`, { size: small, bold: word === words.out }));
    at += small * 1.7;
    // More than a few rows of marks is a wall, not a count; the figure says it then.
    const shown = kept(n, 0, perRow * 4);
    for (let k = 0; k < shown; k++)
      marks.push(
        mark(x + step * (k % perRow) + small * 0.35, at + Math.floor(k / perRow) * step + small * 0.35),
      );
    at += Math.ceil(shown / perRow) * step + small * 0.45;
  }
  return { marks, thread, bottom: at };
}

function ring(pen: Pen, x: number, y: number, full: boolean): string {
  const r = pen.size.small * 0.28;
  const ink = full ? `fill="${pen.ink}"` : stroke(pen.ink, pen.size.line * 0.8);
  return `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" ${ink}/>`;
}

import { line, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf, TINTS } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';
import { type VerdictMark, verdictShape } from './svg/verdict-shape.ts';

/** One place: a height or section, on one axis. */
export interface MapCell {
  /** The figure printed in it. */
  readonly text: string;
  /** From as new, in the unit of the steps; its magnitude chooses the tint. */
  readonly deviation?: number | undefined;
  readonly worst?: boolean | undefined;
  readonly verdict?: VerdictMark | undefined;
}

/** One bore or journal. A cell that is missing has not been measured. */
export interface Strip {
  readonly name: string;
  /** By row, then by column. */
  readonly cells: readonly (readonly (MapCell | undefined)[])[];
}

/** Deviations up to here share one grey. */
export interface TintStep {
  readonly upTo: number;
  readonly text: string;
}

/** What the unrolled strips show: bores or journals, all with the same rows and columns. */
export interface UnrolledMap {
  /** Heights or sections, from the top. */
  readonly rows: readonly string[];
  /** Axes. */
  readonly columns: readonly string[];
  readonly strips: readonly Strip[];
  /** At most five, rising; what is beyond the last is drawn like the last. */
  readonly steps?: readonly TintStep[] | undefined;
  /** The word for the worst cell's mark, in the key. */
  readonly worst?: string | undefined;
}

/** Bores or journals, each cut open and laid flat: heights by axes, tinted by deviation, the worst cell framed. */
export function unrolledBoresSvg(map: UnrolledMap, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, line: thin } = pen.size;
  const rows = Math.max(map.rows.length, ...map.strips.map(({ cells }) => cells.length));
  const columns = Math.max(
    1,
    map.columns.length,
    ...map.strips.flatMap(({ cells }) => cells.map((row) => row.length)),
  );
  const heads = Math.max(0, ...map.rows.map((row) => textWidth(row, small))) + small * 0.7;
  const texts = map.strips.flatMap(({ cells }) => cells.flat().map((cell) => cell?.text ?? ''));
  const widest = Math.max(
    ...texts.map((text) => textWidth(text, label, true)),
    ...map.columns.map((c) => textWidth(c, small)),
    label * 2,
  );
  const marked = map.strips.some(({ cells }) => cells.flat().some((cell) => cell?.verdict !== undefined));
  const cellLeast = widest + label * (marked ? 1.9 : 0.9);
  const between = label * 1.4;
  // As many strips side by side as hold their figures, in rows of equal number.
  const fit = Math.max(1, Math.floor((width - heads + between) / (cellLeast * columns + between)));
  const lines = Math.ceil(map.strips.length / fit);
  const across = Math.max(1, Math.ceil(map.strips.length / Math.max(1, lines)));
  const room = (width - heads - thin * 2 - between * (across - 1)) / across;
  const cellWidth = Math.min(room / columns, cellLeast * 1.9);
  const cellHeight = label * 2.1;
  const head = label * 1.5 + small * 1.5;
  const stripHeight = head + rows * cellHeight + label * 1.2;

  const strips = map.strips.map((strip, i) => {
    const x = heads + thin + (i % across) * (cellWidth * columns + between);
    const y = Math.floor(i / across) * stripHeight;
    return drawnStrip(pen, map, strip, { x, y: y + head, cellWidth, cellHeight, rows, columns });
  });
  const names = Array.from({ length: lines }, (_, k) =>
    map.rows.map((row, r) =>
      type(pen, heads - small * 0.3, k * stripHeight + head + (r + 0.5) * cellHeight + small * 0.35, row, {
        size: small,
        anchor: 'end',
        colour: pen.soft,
      }),
    ),
  ).flat();
  const key = legend(pen, map, lines * stripHeight, width);
  return svg(picture, pen, width, key.bottom, [...names, ...strips, ...key.marks]);
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly cellWidth: number;
  readonly cellHeight: number;
  readonly rows: number;
  readonly columns: number;
}

function drawnStrip(pen: Pen, map: UnrolledMap, strip: Strip, place: Place): string {
  const { x, y, cellWidth, cellHeight, rows, columns } = place;
  const { label, small, hair, line: thin } = pen.size;
  const [w, h] = [cellWidth * columns, cellHeight * rows];
  const marks = [
    type(pen, x, y - small * 1.5 - label * 0.35, strip.name, { size: label, bold: true }),
    ...map.columns.map((column, c) =>
      type(pen, x + (c + 0.5) * cellWidth, y - small * 0.55, column, {
        size: small,
        anchor: 'middle',
        colour: pen.soft,
      }),
    ),
  ];
  const worst: string[] = [];
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const [left, top] = [x + c * cellWidth, y + r * cellHeight];
      const cell = strip.cells[r]?.[c];
      marks.push(drawnCell(pen, map.steps ?? [], cell, left, top, cellWidth, cellHeight));
      if (cell?.worst === true) worst.push(worstMark(pen, left, top, cellWidth, cellHeight));
    }
  }
  const outline = rect(x, y, w, h, stroke(pen.ink, thin));
  const grid = [
    ...Array.from({ length: rows - 1 }, (_, r) =>
      line(x, y + (r + 1) * cellHeight, x + w, y + (r + 1) * cellHeight, stroke(pen.ink, hair)),
    ),
    ...Array.from({ length: columns - 1 }, (_, c) =>
      line(x + (c + 1) * cellWidth, y, x + (c + 1) * cellWidth, y + h, stroke(pen.ink, hair)),
    ),
  ];
  return `<g data-mark="strip">${[...marks, ...grid, outline, ...worst].join('')}</g>`;
}

function drawnCell(
  pen: Pen,
  steps: readonly TintStep[],
  cell: MapCell | undefined,
  x: number,
  y: number,
  width: number,
  height: number,
): string {
  const { label, small, hair } = pen.size;
  if (cell === undefined) {
    // Not measured: a stroke from corner to corner, as an unused box of a form is struck.
    const diagonal = line(x, y + height, x + width, y, stroke(pen.soft, hair));
    return `<g data-cell="missing">${diagonal}</g>`;
  }
  const step = tintOf(cell.deviation, steps);
  const tint = step === undefined ? '' : rect(x, y, width, height, pen.tint(step));
  const side = label * 0.85;
  const shape =
    cell.verdict === undefined
      ? ''
      : verdictShape(pen, cell.verdict, x + width - side * 0.75, y + height / 2, side);
  const middle = cell.verdict === undefined ? x + width / 2 : x + (width - side) / 2;
  const size = Math.min(label, (width / Math.max(1, textWidth(cell.text, 1, true))) * 0.95);
  const figure = type(pen, middle, y + height / 2 + size * 0.36, cell.text, {
    size: Math.max(size, small * 0.6),
    anchor: 'middle',
    bold: cell.worst === true,
  });
  return `<g data-cell="${step ?? 'plain'}">${tint}${figure}${shape}</g>`;
}

/** Which of the greys a deviation takes; none where it or the steps are not known. */
function tintOf(deviation: number | undefined, steps: readonly TintStep[]): number | undefined {
  if (deviation === undefined || !Number.isFinite(deviation) || steps.length === 0) return undefined;
  const k = steps.findIndex(({ upTo }) => Math.abs(deviation) <= upTo);
  return Math.min(TINTS - 1, k < 0 ? steps.length - 1 : k);
}

function worstMark(pen: Pen, x: number, y: number, width: number, height: number): string {
  const { heavy, small } = pen.size;
  const corner = small * 0.6;
  const frame = rect(x, y, width, height, stroke(pen.ink, heavy));
  const flag = polygon(
    [
      [x, y],
      [x + corner, y],
      [x, y + corner],
    ],
    `fill="${pen.ink}"`,
  );
  return `<g data-mark="worst">${frame}${flag}</g>`;
}

function legend(
  pen: Pen,
  map: UnrolledMap,
  top: number,
  width: number,
): { readonly marks: readonly string[]; readonly bottom: number } {
  const { small, hair, line: thin } = pen.size;
  const [w, h] = [small * 1.8, small * 1.1];
  const items = [
    ...(map.steps ?? []).slice(0, TINTS).map(({ text }, k) => ({
      text,
      box: (x: number, y: number) => rect(x, y, w, h, pen.tint(k)) + rect(x, y, w, h, stroke(pen.ink, hair)),
    })),
    ...(map.worst === undefined
      ? []
      : [{ text: map.worst, box: (x: number, y: number) => worstMark(pen, x + thin, y, w - thin, h) }]),
  ];
  const marks: string[] = [];
  let [x, y] = [0, top];
  for (const { text, box } of items) {
    const whole = w + small * 0.5 + textWidth(text, small);
    if (x > 0 && x + whole > width) [x, y] = [0, y + small * 1.8];
    marks.push(
      box(x + thin, y),
      type(pen, x + thin + w + small * 0.5, y + small * 0.9, text, { size: small, colour: pen.soft }),
    );
    x += whole + small * 1.4;
  }
  return { marks, bottom: items.length === 0 ? top : y + small * 1.5 };
}

import { contourOf } from './contours.ts';
import { line, num, rect, stroke, svg, type } from './svg/marks.ts';
import { penOf, TINTS } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';

/** The film of a bearing cut open opposite the load and laid flat: angle round the bearing along, its length up. */
export interface UnrolledFilm {
  /** Of the slices, from the load in the sense of rotation, from 0 to under 2π, rising [rad] */
  readonly angles: readonly number[];
  /** Rows from the middle to one edge, in half lengths, the last 1; the other half is drawn as its mirror image. */
  readonly rows: readonly number[];
  /** By slice, then by row, in any unit. */
  readonly pressure: readonly (readonly number[])[];
  /** 1 in a full film; less where it is ruptured. */
  readonly fill: readonly (readonly number[])[];
  /** Whether oil comes in there. */
  readonly fed: readonly (readonly boolean[])[];
  /** Where the film is least [rad], and what to write there. */
  readonly least: { readonly at: number; readonly text: string };
  /** Greatest pressure in words, such as "peak 12 MPa". */
  readonly peak: string;
}

const TURN = 2 * Math.PI;
/** A film less full than this is drawn as ruptured. */
const FULL = 0.995;
const LEVELS = [0.2, 0.4, 0.6, 0.8];

/** Pressure in the film as tint and contour lines, where it is ruptured as hatching, where it is fed and least. */
export function unrolledFilmSvg(whole: UnrolledFilm, picture: Picture): string {
  const film = cutOpposite(whole);
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, hair, line: thin, heavy } = pen.size;
  const [left, top] = [small * 0.8, label * 2.2];
  const across = width - 2 * left;
  const up = Math.min(across * 0.42, label * 16);
  const n = film.angles.length;
  // Both halves: from one edge over the middle to the other.
  const bounds = rowBounds(film.rows);
  // The row in the middle is its own mirror image.
  const rows = [
    ...bounds.toReversed().flatMap(([a, b, k]) => (a > 0 ? [[-b, -a, k] as const] : [])),
    ...bounds.map(([a, b, k]) => [a > 0 ? a : -b, b, k] as const),
  ];
  const x = (angle: number): number => left + across * (0.5 + angle / TURN);
  const y = (share: number): number => top + (up * (1 + share)) / 2;
  const peak = Math.max(1e-300, ...film.pressure.flat());
  const edges = (i: number): readonly [number, number] => [
    i === 0 ? -Math.PI : (film.angles[i - 1]! + film.angles[i]!) / 2,
    i === n - 1 ? Math.PI : (film.angles[i]! + film.angles[i + 1]!) / 2,
  ];
  const cells = tints(film, peak).flatMap(({ from, to, low, high, step }) =>
    [1, -1].map((side) => {
      const [y0, y1] = [y(Math.min(side * low, side * high)), y(Math.max(side * low, side * high))];
      return rect(x(from), y0, x(to) - x(from), y1 - y0, pen.tint(step));
    }),
  );
  for (const [low, high, k] of rows)
    for (let i = 0; i < n; i++) {
      const [from, to] = edges(i);
      if (film.fed[i]![k]) {
        // One mark for all that lie side by side: between two a seam would show.
        if (i > 0 && film.fed[i - 1]![k]) continue;
        let last = i;
        while (last + 1 < n && film.fed[last + 1]![k]) last++;
        const [x0, x1] = [x(from), x(edges(last)[1])];
        cells.push(rect(x0, y(low), x1 - x0, y(high) - y(low), `fill="${pen.ink}" fill-opacity="0.75"`));
      } else if (film.fill[i]![k]! < FULL)
        cells.push(line(x(from), y(high), x(to), y(low), stroke(pen.rule, hair)));
    }
  const ys = [...film.rows.toReversed().map((row) => -row), ...film.rows.filter((row) => row > 0)];
  const rowOf = (share: number): number => film.rows.indexOf(Math.abs(share));
  const values = ys.flatMap((share) => film.pressure.map((slice) => slice[rowOf(share)]! / peak));
  const lines = LEVELS.flatMap((level) =>
    contourOf({ xs: film.angles, ys, values }, level).map(({ from, to }) =>
      line(x(from[0]), y(from[1]), x(to[0]), y(to[1]), stroke(pen.soft, hair)),
    ),
  );
  const at = x(fromLoad(film.least.at));
  const rightHalf = at > left + across / 2;
  const bottom = top + up;
  const ticks = [-180, -90, 0, 90, 180].map((degrees) => {
    const tick = x((degrees * Math.PI) / 180);
    return (
      line(tick, bottom, tick, bottom + small * 0.4, stroke(pen.ink, thin)) +
      type(pen, tick, bottom + small * 1.5, degrees === 0 ? 'load' : `${degrees}°`, {
        size: small,
        anchor: degrees === -180 ? 'start' : degrees === 180 ? 'end' : 'middle',
        colour: pen.soft,
      })
    );
  });
  const box = label * 1.1;
  const key = bottom + small * 3.4;
  const keyed = keyPlaces(
    [film.peak, ...KEYS].map((text) => box * 1.4 + textWidth(text, small) + label),
    across,
  ).map(({ along, row }) => ({ x: left + along, y: key + row * box * 1.7 }));
  const keyOf = (k: number, mark: string, text: string): string =>
    `<g data-mark="key" transform="translate(${num(keyed[k]!.x)} ${num(keyed[k]!.y)})">${mark}${type(pen, box * 1.4, box * 0.8, text, { size: small })}</g>`;
  const marks = [
    ...cells,
    ...lines,
    rect(left, top, across, up, stroke(pen.ink, thin)),
    line(at, top - label * 0.5, at, bottom, stroke(pen.accent, heavy, `${num(heavy * 2)} ${num(heavy)}`)),
    type(pen, at, top - label * 0.8, film.least.text, {
      size: label,
      anchor: rightHalf ? 'end' : 'start',
      bold: true,
    }),
    ...ticks,
    keyOf(
      0,
      rect(0, 0, box, box, `${pen.tint(TINTS - 1)} stroke="${pen.ink}" stroke-width="${num(hair)}"`),
      film.peak,
    ),
    keyOf(
      1,
      rect(0, 0, box, box, stroke(pen.ink, hair)) + line(0, box, box, 0, stroke(pen.rule, hair)),
      KEYS[0],
    ),
    keyOf(2, rect(0, 0, box, box, `fill="${pen.ink}" fill-opacity="0.75"`), KEYS[1]),
  ];
  return svg(picture, pen, width, keyed.at(-1)!.y + box * 1.6, marks);
}

const KEYS = ['film ruptured', 'oil comes in'] as const;

/** So many parts of each stretch between two figures are tinted by themselves: no steps that the film has not. */
const PARTS = 4;

interface Tint {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly step: number;
}

/** Pressure between the figures in straight lines, as tints of one half; what is alike along the angle is one. */
function tints({ angles, rows, pressure }: UnrolledFilm, peak: number): Tint[] {
  const found: Tint[] = [];
  for (let k = 0; k < rows.length - 1; k++)
    for (let part = 0; part < PARTS; part++) {
      const share = (part + 0.5) / PARTS;
      const at = (edge: number): number => rows[k]! + (rows[k + 1]! - rows[k]!) * edge;
      const along = pressure.map((slice) => slice[k]! * (1 - share) + slice[k + 1]! * share);
      let open: Tint | undefined;
      const close = (): void => {
        if (open) found.push(open);
        open = undefined;
      };
      for (let i = 0; i < angles.length - 1; i++)
        for (let piece = 0; piece < PARTS; piece++) {
          const way = (piece + 0.5) / PARTS;
          const p = along[i]! * (1 - way) + along[i + 1]! * way;
          const step = Math.min(TINTS - 1, Math.floor((p / peak) * TINTS));
          const angle = (edge: number): number => angles[i]! + (angles[i + 1]! - angles[i]!) * edge;
          const to = angle((piece + 1) / PARTS);
          if (open && open.step === step) {
            open = { ...open, to };
            continue;
          }
          close();
          if (step > 0)
            open = {
              from: angle(piece / PARTS),
              to,
              low: at(part / PARTS),
              high: at((part + 1) / PARTS),
              step,
            };
        }
      close();
    }
  return found;
}

/** Side by side as long as there is room, each a third along where it fits, else one row further down. */
function keyPlaces(widths: readonly number[], room: number): { along: number; row: number }[] {
  const column = room / 3;
  const step = widths.every((wide) => wide <= column) ? column : 0;
  let [along, row] = [0, 0];
  return widths.map((wide, k) => {
    if (step > 0) return { along: k * step, row: 0 };
    if (along > 0 && along + wide > room) [along, row] = [0, row + 1];
    const place = { along, row };
    along += wide;
    return place;
  });
}

/** An angle from −π to under π. */
const fromLoad = (angle: number): number => angle - TURN * Math.floor((angle + Math.PI) / TURN);

/** The slices in rising order from opposite the load: the film that carries then stands whole in the middle. */
function cutOpposite(film: UnrolledFilm): UnrolledFilm {
  const order = film.angles
    .map((angle, i) => ({ angle: fromLoad(angle), i }))
    .sort((a, b) => a.angle - b.angle);
  const turned = <T>(list: readonly T[]): T[] => order.map(({ i }) => list[i]!);
  return {
    ...film,
    angles: order.map(({ angle }) => angle),
    pressure: turned(film.pressure),
    fill: turned(film.fill),
    fed: turned(film.fed),
  };
}

/** Each row's stretch along the half, to halfway to its neighbours, with its number. */
function rowBounds(rows: readonly number[]): (readonly [number, number, number])[] {
  return rows.map((row, k) => {
    const before = k === 0 ? 0 : (rows[k - 1]! + row) / 2;
    const after = k === rows.length - 1 ? 1 : (row + rows[k + 1]!) / 2;
    return [before, after, k] as const;
  });
}

import { line, num, polygon, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** A place on a curve that is named. */
interface CurveMark {
  readonly index: number;
  readonly text: string;
}

/** A closed curve over one cycle; x up, y to the right, so that the crank turns clockwise. */
interface CycleCurve {
  /** Over its picture. */
  readonly name: string;
  readonly points: readonly (readonly [x: number, y: number])[];
  /** Where it matters most: the least film, the greatest load. */
  readonly most?: CurveMark | undefined;
  /** Crank angles along it. */
  readonly marks?: readonly CurveMark[] | undefined;
}

/** The journal's path inside its clearance, and the load that drives it. */
export interface OrbitChart {
  /** Eccentricity over clearance: the circle is where the journal would touch. */
  readonly path: CycleCurve;
  /** In the unit its texts are printed in. */
  readonly load?: CycleCurve | undefined;
}

/** Where the name of a crank angle may stand about its dot, as turns of the outward direction. */
const PLACES = [0, Math.PI / 2, -Math.PI / 2, Math.PI] as const;

const isPoint = ([x, y]: readonly [number, number]): boolean => Number.isFinite(x) && Number.isFinite(y);

/** Path and load side by side, or one under the other where there is little room. */
export function orbitSvg(chart: OrbitChart, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small } = pen.size;
  const beside = chart.load !== undefined && width >= label * 38;
  const side = Math.min(beside ? (width - label * 2) / 2 : width, label * 30);
  const marks: string[] = [];
  const path = panel(pen, chart.path, 0, 0, side, 1, true);
  marks.push(...path.marks);
  let height = path.bottom;
  if (chart.load) {
    const { points } = chart.load;
    const reach = Math.max(...points.filter(isPoint).map(([x, y]) => Math.hypot(x, y)), 0);
    const load = panel(
      pen,
      chart.load,
      beside ? side + label * 2 : 0,
      beside ? 0 : height + label,
      side,
      reach,
      false,
    );
    marks.push(...load.marks);
    height = Math.max(height, load.bottom);
  }
  return svg(picture, pen, width, height + small * 0.4, marks);
}

function panel(
  pen: Pen,
  curve: CycleCurve,
  left: number,
  top: number,
  side: number,
  reach: number,
  clearance: boolean,
): { readonly marks: string[]; readonly bottom: number } {
  const { label, small, hair, line: thin, heavy } = pen.size;
  const names = wrapped(curve.name, label, side, true);
  const captions = curve.most ? wrapped(curve.most.text, label, side - label * 1.4) : [];
  const radius = side / 2 - small * 2.2;
  const centre = { x: left + side / 2, y: top + names.length * label * 1.3 + small * 0.8 + side / 2 };
  // Divided first: a reach next to nothing has no finite inverse.
  const share = (value: number): number => (reach > 0 ? radius * (value / reach) : 0);
  const at = ([x, y]: readonly [number, number]): [number, number] => [
    centre.x + share(y),
    centre.y - share(x),
  ];
  const points = curve.points.filter(isPoint);
  const place = (index: number): readonly [number, number] | undefined => {
    const found = curve.points[index];
    return found && isPoint(found) ? found : undefined;
  };
  const marks = names.map((words, k) =>
    type(pen, left, top + label * (1 + k * 1.3), words, { size: label, bold: true }),
  );
  const { x: cx, y: cy } = centre;
  marks.push(
    line(cx - radius, cy, cx + radius, cy, stroke(pen.rule, hair / 2)),
    line(cx, cy - radius, cx, cy + radius, stroke(pen.rule, hair / 2)),
  );
  if (clearance)
    marks.push(
      `<circle data-mark="clearance" cx="${num(cx)}" cy="${num(cy)}" r="${num(radius)}" ${stroke(pen.ink, thin)}/>`,
    );
  if (points.length > 1)
    marks.push(
      `<g data-mark="curve">${polygon(points.map(at), `${stroke(pen.ink, thin * 1.3)} stroke-linejoin="round"`)}</g>`,
    );
  const named: { readonly x: number; readonly y: number }[] = [];
  for (const { index, text } of curve.marks ?? []) {
    const point = place(index);
    if (!point) continue;
    const [x, y] = at(point);
    // Names stand on the side away from the middle, so that they keep off the curve.
    const size = Math.hypot(x - cx, y - cy) || 1;
    const [dx, dy] = [(x - cx) / size, (y - cy) / size];
    const half = textWidth(text, small) / 2;
    const words = PLACES.map((turn) => ({
      x: x + (dx * Math.cos(turn) - dy * Math.sin(turn)) * (small * 0.8 + half),
      y: y + (dx * Math.sin(turn) + dy * Math.cos(turn)) * small + small * 0.35,
    })).find((one) =>
      named.every((other) => Math.abs(one.x - other.x) > 2.2 * half || Math.abs(one.y - other.y) > small),
    );
    marks.push(`<circle cx="${num(x)}" cy="${num(y)}" r="${num(small * 0.22)}" fill="${pen.ink}"/>`);
    // Angles that lie on one spot would be written over one another: what finds no place keeps its dot alone.
    if (!words) continue;
    named.push(words);
    marks.push(
      type(pen, words.x, words.y, text, { size: small, anchor: 'middle', colour: pen.soft, halo: true }),
    );
  }
  let y = cy + side / 2 + small * 0.4;
  const most = curve.most && place(curve.most.index);
  if (most) {
    const [px, py] = at(most);
    const ring = (x0: number, y0: number): string =>
      `<circle data-mark="most" cx="${num(x0)}" cy="${num(y0)}" r="${num(label * 0.38)}" fill="${pen.paper}" stroke="${pen.accent}" stroke-width="${num(heavy * 0.7)}"/>`;
    marks.push(ring(px, py), ring(left + label * 0.6, y + label * 0.35));
    captions.forEach((words, k) => {
      marks.push(type(pen, left + label * 1.4, y + label * (0.7 + k * 1.25), words, { size: label }));
    });
    y += captions.length * label * 1.25;
  }
  return { marks, bottom: y };
}

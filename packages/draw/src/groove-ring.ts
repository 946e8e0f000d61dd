import { isDrawable } from './svg/drawable.ts';
import { line, num, polygon, stroke, svg, type } from './svg/marks.ts';
import { penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** A depth read at points round a ring, all the same way round. */
export interface GrooveRing {
  readonly points: readonly {
    readonly name: string;
    /** Missing where it is not read. */
    readonly value?: number | undefined;
    readonly text?: string | undefined;
    readonly worst?: boolean | undefined;
  }[];
  /** Depths that are the same all round: a limit, the even depth that leaks as much. */
  readonly rings: readonly {
    readonly value: number;
    readonly text: string;
    readonly dash: 'long' | 'short';
  }[];
}

/** How deep the groove is round its ring: the farther out, the deeper; points evenly spaced, the first on top. */
export function grooveRingSvg({ points, rings }: GrooveRing, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, hair, line: thin, heavy } = pen.size;
  const most = Math.max(
    0,
    ...points.map(({ value }) => value).filter(isDrawable),
    ...rings.map(({ value }) => value).filter(isDrawable),
  );
  const room = Math.max(label * 2.5, ...points.map(({ text = '' }) => textWidth(text, label, true)));
  const side = Math.min(width, label * 24);
  const radius = Math.max(label * 2, side / 2 - room - label * 1.7);
  const [cx, cy] = [width / 2, radius + label * 3.4];
  const out = (value: number): number => (most > 0 ? radius * Math.max(0, value / most) : 0);
  const at = (i: number, r: number): [number, number] => {
    const angle = (2 * Math.PI * i) / Math.max(1, points.length);
    return [cx + r * Math.sin(angle), cy - r * Math.cos(angle)];
  };
  const dash = (which: 'long' | 'short'): string =>
    which === 'long' ? `${num(heavy * 3)} ${num(heavy)}` : `${num(thin)} ${num(thin * 2)}`;
  const marks: string[] = [];
  points.forEach((_, i) => {
    const [x, y] = at(i, radius);
    marks.push(line(cx, cy, x, y, stroke(pen.rule, hair)));
  });
  const read = points.flatMap(({ value }, i) => (isDrawable(value) ? [at(i, out(value))] : []));
  if (read.length === points.length && read.length > 2)
    marks.push(
      `<g data-mark="groove">${polygon(read, `${pen.tint(2)} stroke="${pen.ink}" stroke-width="${num(thin)}"`)}</g>`,
    );
  for (const ring of rings)
    if (isDrawable(ring.value))
      marks.push(
        `<circle data-mark="ring" cx="${num(cx)}" cy="${num(cy)}" r="${num(out(ring.value))}" ${stroke(pen.ink, thin, dash(ring.dash))}/>`,
      );
  points.forEach(({ name, value, text, worst }, i) => {
    if (isDrawable(value)) {
      const [x, y] = at(i, out(value));
      marks.push(
        `<circle cx="${num(x)}" cy="${num(y)}" r="${num(label * (worst ? 0.36 : 0.22))}" fill="${pen.ink}"/>`,
      );
    }
    const [tx, ty] = at(i, radius + label * 1.5);
    const sideways = Math.abs(tx - cx) < label ? 'middle' : tx > cx ? 'start' : 'end';
    // On top both lines stand clear of the point.
    const lift = ty < cy - radius ? small * 1.2 : 0;
    marks.push(
      type(pen, tx, ty - lift, text ?? 'not read', { size: label, anchor: sideways, bold: worst === true }),
      type(pen, tx, ty - lift + small * 1.25, name, { size: small, anchor: sideways, colour: pen.soft }),
    );
  });
  let y = cy + radius + label * 4.2;
  for (const { text, dash: which } of rings) {
    marks.push(
      line(thin, y - small * 0.3, thin + label * 2.4, y - small * 0.3, stroke(pen.ink, thin, dash(which))),
    );
    for (const words of wrapped(text, small, width - label * 3)) {
      marks.push(type(pen, label * 3, y, words, { size: small }));
      y += small * 1.4;
    }
    y += small * 0.3;
  }
  return svg(picture, pen, width, y, marks);
}

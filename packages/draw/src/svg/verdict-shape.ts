import { num, polygon, polyline, rect, stroke } from './marks.ts';
import type { Pen } from './pen.ts';

/** What a verdict mark stands for. */
export type VerdictMark = 'in' | 'out' | 'cannot-tell' | 'not-read';

/**
 * The shape of a verdict or a state, centred on a point and kept within a square.
 *
 * @param side  of that square
 */
export function verdictShape(pen: Pen, mark: VerdictMark, x: number, y: number, side: number): string {
  const r = side * 0.44;
  const edge = side * 0.09;
  const at = (dx: number, dy: number): readonly [number, number] => [x + dx * r, y + dy * r];
  const sign = stroke(pen.paper, side * 0.12);
  if (mark === 'in') {
    const tick = polyline([at(-0.48, 0.02), at(-0.12, 0.42), at(0.5, -0.4)], sign);
    return `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" fill="${pen.ink}"/>${tick}`;
  }
  if (mark === 'out') {
    const square = rect(x - r * 0.92, y - r * 0.92, r * 1.84, r * 1.84, `fill="${pen.ink}"`);
    const cross =
      polyline([at(-0.48, -0.48), at(0.48, 0.48)], sign) + polyline([at(-0.48, 0.48), at(0.48, -0.48)], sign);
    return square + cross;
  }
  if (mark === 'cannot-tell') {
    const whole = polygon([at(0, -1), at(1, 0), at(0, 1), at(-1, 0)], stroke(pen.ink, edge));
    return whole + polygon([at(0, -1), at(0, 1), at(-1, 0)], `fill="${pen.ink}"`);
  }
  const ring = stroke(pen.ink, edge * 0.8, `${num(r * 0.42)} ${num(r * 0.365)}`);
  return `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r * 0.92)}" ${ring}/>`;
}

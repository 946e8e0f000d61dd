import { svg } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { type Picture, sizesOf } from './svg/picture.ts';
import { type VerdictMark, verdictShape } from './svg/verdict-shape.ts';

export type { VerdictMark };

/**
 * The shape of a verdict, to stand beside its word: a filled disc with a tick, a filled square with a cross,
 * a diamond filled by half, an empty broken ring. Each has an outline of its own, so that it is told apart in
 * grey and from across the bench. The picture is square and as wide as asked.
 */
export function verdictMarkSvg(mark: VerdictMark, picture: Picture): string {
  const pen: Pen = penOf(picture);
  const least = sizesOf(picture.profile).small / 2;
  const side = Number.isFinite(picture.width) ? Math.max(least, picture.width) : least * 4;
  return svg(picture, pen, side, side, [verdictShape(pen, mark, side / 2, side / 2, side)]);
}

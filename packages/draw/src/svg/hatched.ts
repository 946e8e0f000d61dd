import { line, stroke } from './marks.ts';

/** Parallel strokes at 45° that fill a rectangle, each ending at its edges: no pattern, which would need an id. */
export function hatched(
  x: number,
  y: number,
  width: number,
  height: number,
  step: number,
  colour: string,
  weight: number,
): string {
  if (!(width > 0 && height > 0 && step > 0)) return '';
  const strokes: string[] = [];
  // Each stroke lies on x − y = k, from its lower left to its upper right end.
  for (let k = step / 2; k < width + height; k += step) {
    const from = Math.max(0, k - height);
    const to = Math.min(width, k);
    strokes.push(line(x + from, y + k - from, x + to, y + k - to, stroke(colour, weight)));
  }
  return strokes.join('');
}

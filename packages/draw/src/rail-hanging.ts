import { kept } from './svg/finite.ts';
import { line, rect, stroke, type } from './svg/marks.ts';
import type { Pen } from './svg/pen.ts';
import { balanced, textWidth } from './svg/text-width.ts';

/** What hangs under the block on its thread: the reading's figure and, framed with it, the next move. */
export function hung(
  pen: Pen,
  hanging: {
    readonly reading: string | undefined;
    readonly next: string | undefined;
    readonly x: number;
    readonly base: number;
    readonly foot: number;
    readonly width: number;
  },
): { readonly string: readonly string[]; readonly words: readonly string[]; readonly bottom: number } {
  const { reading = '', next = '', x, base, foot, width } = hanging;
  const { figure, label, line: thin, small } = pen.size;
  const most = width - label * 1.6;
  // The figure shrinks rather than breaks, down to the size of the words around it.
  const bold = kept((most / Math.max(1, textWidth(reading, 1, true))) * 0.99, label, figure);
  const moves = balanced(next, label, most);
  const figures = balanced(reading, bold, most, true);
  if (moves.length + figures.length === 0) return { string: [], words: [], bottom: foot };
  const framed = moves.length > 0;
  const longest = Math.max(
    ...moves.map((words) => textWidth(words, label)),
    ...figures.map((words) => textWidth(words, bold, true)),
  );
  const top = foot + small * 0.7;
  const plate = Math.min(width - thin, longest + label * 1.6);
  const left = kept(x - plate / 2, thin / 2, width - plate - thin / 2);
  const words: string[] = [];
  let y = top + label * (framed ? 0.35 : 0.1);
  for (const line of figures) {
    y += bold * 1.2;
    words.push(
      type(pen, left + plate / 2, y - bold * 0.2, line, { size: bold, anchor: 'middle', bold: true }),
    );
  }
  for (const line of moves) {
    y += label * 1.3;
    words.push(type(pen, left + plate / 2, y - label * 0.25, line, { size: label, anchor: 'middle' }));
  }
  if (!framed) return { string: thread(pen, x, base, top), words, bottom: y + label * 0.1 };
  const bottom = y + label * 0.45;
  const frame = rect(left, top, plate, bottom - top, stroke(pen.accent, thin));
  return {
    string: thread(pen, x, base, top),
    words: [`<g data-mark="next">${frame}${words.join('')}</g>`],
    bottom: bottom + thin,
  };
}

function thread(pen: Pen, x: number, from: number, to: number): string[] {
  return [line(x, from, x, to, stroke(pen.accent, pen.size.line))];
}

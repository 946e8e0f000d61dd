import type { RailPost, RailSet, Scale } from './rail-scale.ts';
import { kept } from './svg/finite.ts';
import { line, num, polygon, stroke, type } from './svg/marks.ts';
import type { Pen } from './svg/pen.ts';
import { spread } from './svg/spread.ts';
import { textWidth } from './svg/text-width.ts';

/** Posts of one set with the dimension line between them. */
export function span(
  pen: Pen,
  scale: Scale,
  set: RailSet,
  at: { readonly dim: number; readonly far: number; readonly base: number },
): string[] {
  if (set.lower === undefined && set.upper === undefined) return [];
  const { heavy, hair, small } = pen.size;
  const dash = set.set === 'wear' ? `${num(heavy * 2)} ${num(heavy * 1.2)}` : '';
  const post = (of: RailPost | undefined, side: string): string => {
    if (of === undefined) return '';
    const x = scale.x(of.at);
    // A clear edge on both sides lets the post be seen through a block.
    const clear = line(x, at.base, x, at.far, stroke(pen.paper, heavy * 2));
    const drawn = line(x, at.far, x, at.base, stroke(pen.ink, heavy, dash));
    return `<g data-mark="post" data-set="${set.set}" data-side="${side}" data-x="${num(x)}">${clear}${drawn}</g>`;
  };
  const [a, b] = [
    set.lower ? scale.x(set.lower.at) : scale.start,
    set.upper ? scale.x(set.upper.at) : scale.end,
  ];
  const head = small * 0.55;
  const arrow = (x: number, way: number): string =>
    polygon(
      [
        [x, at.dim],
        [x - way * head, at.dim - head * 0.32],
        [x - way * head, at.dim + head * 0.32],
      ],
      `fill="${pen.ink}"`,
    );
  const gap = heavy / 2;
  const middle = nameAt(scale, set);
  const room = textWidth(set.name, small) / 2 + small * 0.3;
  const named = nameFits(pen, scale, set);
  const target = set.target === undefined ? undefined : scale.x(set.target.at);
  return [
    ...(named
      ? [
          line(a, at.dim, middle - room, at.dim, stroke(pen.ink, hair)),
          line(middle + room, at.dim, b, at.dim, stroke(pen.ink, hair)),
          type(pen, middle, at.dim + small * 0.34, set.name, {
            size: small,
            anchor: 'middle',
            colour: pen.soft,
          }),
        ]
      : [line(a, at.dim, b, at.dim, stroke(pen.ink, hair))]),
    set.lower ? arrow(a + gap, -1) : '',
    set.upper ? arrow(b - gap, 1) : '',
    post(set.lower, 'lower'),
    post(set.upper, 'upper'),
    target === undefined
      ? ''
      : line(target, at.dim - head * 0.6, target, at.dim + head * 0.6, stroke(pen.ink, pen.size.line)),
  ];
}

/** The stretch of a set's dimension line that its name stands on: the longer side of a target, or all of it. */
function nameStretch(scale: Scale, set: RailSet): readonly [number, number] {
  const [a, b] = [
    set.lower ? scale.x(set.lower.at) : scale.start,
    set.upper ? scale.x(set.upper.at) : scale.end,
  ];
  if (set.target === undefined) return [a, b];
  const target = kept(scale.x(set.target.at), a, b);
  return target - a > b - target ? [a, target] : [target, b];
}

function nameAt(scale: Scale, set: RailSet): number {
  const [a, b] = nameStretch(scale, set);
  return (a + b) / 2;
}

/** Whether the set's name finds room on its dimension line; else it goes before the first figure. */
function nameFits({ size: { small } }: Pen, scale: Scale, set: RailSet): boolean {
  const [a, b] = nameStretch(scale, set);
  return b - a > textWidth(set.name, small) + small * 2.5;
}

/**
 * The limits' figures on one line.
 *
 * @param avoid  where a thread comes through the line
 */
export function figures(
  pen: Pen,
  scale: Scale,
  set: RailSet,
  y: number,
  width: number,
  avoid?: number,
): string[] {
  const { label } = pen.size;
  const named = nameFits(pen, scale, set);
  const posts = [set.lower, set.target, set.upper]
    .filter((post) => post !== undefined)
    .map(({ at, text }, i) => ({ text: named || i > 0 ? text : `${set.name} ${text}`, x: scale.x(at) }))
    .map(({ text, x }) => ({ text, x, width: textWidth(text, label) }));
  const thread = avoid === undefined ? [] : [{ text: '', x: avoid, width: 0 }];
  const labels = [...posts, ...thread].sort((one, other) => one.x - other.x);
  const places =
    avoid === undefined ? spread(labels, 0, width, label * 0.6) : besides(labels, avoid, width, label * 0.5);
  return labels.flatMap(({ text }, i) =>
    text === '' ? [] : [type(pen, places[i]!, y, text, { size: label, anchor: 'middle' })],
  );
}

/** Labels spread on both sides of a thread that itself stays where it is. */
function besides(
  labels: readonly { readonly text: string; readonly x: number; readonly width: number }[],
  thread: number,
  width: number,
  gap: number,
): number[] {
  const at = labels.findIndex(({ text }) => text === '');
  return [
    ...spread(labels.slice(0, at), 0, thread - gap, gap),
    thread,
    ...spread(labels.slice(at + 1), thread + gap, width, gap),
  ];
}

/** Hatching under the rail where no set of limits lets a reading be. */
export function forbidden(
  sets: readonly RailSet[],
  scale: Scale,
  y: number,
  depth: number,
  ink: string,
): string[] {
  const lowers = sets.map(({ lower }) => lower?.at);
  const uppers = sets.map(({ upper }) => upper?.at);
  const ranges: [number, number][] = [];
  if (lowers.length > 0 && lowers.every((at) => at !== undefined))
    ranges.push([scale.start, scale.x(Math.min(...lowers))]);
  if (uppers.length > 0 && uppers.every((at) => at !== undefined))
    ranges.push([scale.x(Math.max(...uppers)), scale.end]);
  return ranges.flatMap(([a, b]) => {
    const strokes: string[] = [];
    for (let x = a + depth; x <= b; x += depth) strokes.push(line(x, y, x - depth, y + depth, ink));
    return strokes;
  });
}

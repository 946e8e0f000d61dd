import { finite, kept } from './svg/finite.ts';
import { line, num, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { spread } from './svg/spread.ts';
import { textWidth, wrapped } from './svg/text-width.ts';

/** One limit. */
export interface RailPost {
  readonly at: number;
  /** The limit as it is printed, in the rail's unit. */
  readonly text: string;
}

/** One set of limits: `new` stands as full posts above the rail, `wear` as broken posts below it. */
export interface RailSet {
  readonly set: 'new' | 'wear';
  readonly name: string;
  readonly lower?: RailPost | undefined;
  readonly upper?: RailPost | undefined;
  readonly target?: RailPost | undefined;
}

/** What a witness says: as wide as its uncertainty. An edge that is missing is an open end. */
export interface RailBlock {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** Where it most likely is. */
  readonly best?: number | undefined;
  readonly name?: string | undefined;
  readonly text: string;
}

/** What a limit rail shows, all numbers in one unit. */
export interface LimitRail {
  readonly sets: readonly RailSet[];
  readonly reading?: RailBlock | undefined;
  /** Thinner blocks above the reading. */
  readonly witnesses?: readonly RailBlock[] | undefined;
  /** The next move, hung under the block. */
  readonly next?: string | undefined;
}

interface Scale {
  readonly start: number;
  readonly end: number;
  readonly x: (value: number) => number;
}

/**
 * The limit rail: limits as posts, the reading as a block as wide as its uncertainty. A block across a post is
 * what "cannot tell" looks like.
 */
export function limitRailSvg(rail: LimitRail, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { figure, label, small, heavy, line: thin, hair } = pen.size;
  const witnesses = (rail.witnesses ?? []).map(ordered);
  const reading = rail.reading === undefined ? undefined : ordered(rail.reading);
  const sets = rail.sets.map(drawable);
  const wide = width >= label * 34 && witnesses.length > 0;
  const left = wide
    ? gutter(
        witnesses.map(({ name }) => name ?? ''),
        small,
      )
    : heavy;
  const right = wide
    ? gutter(
        witnesses.map(({ text }) => text),
        label,
      )
    : heavy;
  const scale = railScale(sets, [...witnesses, ...(reading ? [reading] : [])], left, width - right);
  const over = sets.filter(({ set }) => set === 'new');
  const under = sets.filter(({ set }) => set === 'wear');

  const top = over.length > 0 ? label * 1.15 + small * 1.5 : small * 0.5;
  const row = wide ? label * 1.7 : small * 1.35 + label * 0.9;
  const blockTop = top + label * 0.5 + witnesses.length * row + (reading ? figure * 1.15 : 0);
  const blockHeight = label * 1.5;
  const base = blockTop + blockHeight;
  const behind: string[] = [];
  const before: string[] = [];

  witnesses.forEach((witness, i) => {
    const y = top + label * 0.5 + i * row;
    const height = label * 0.62;
    if (wide) {
      const text = y + height / 2 + small * 0.35;
      if (witness.name !== undefined)
        before.push(type(pen, 0, text, witness.name, { size: small, colour: pen.soft }));
      before.push(type(pen, width, text, witness.text, { size: small, anchor: 'end' }));
      behind.push(block(pen, scale, witness, y, height, 1, 'witness'));
    } else {
      const text = y + small;
      const setting = { size: small, halo: true } as const;
      before.push(type(pen, scale.start, text, witness.name ?? '', { ...setting, colour: pen.soft }));
      before.push(type(pen, scale.end, text, witness.text, { ...setting, anchor: 'end' }));
      behind.push(block(pen, scale, witness, y + small * 1.3, height, 1, 'witness'));
    }
  });
  let hang: number | undefined;
  if (reading !== undefined) {
    behind.push(block(pen, scale, reading, blockTop, blockHeight, 3, 'reading'));
    const [a, b] = edges(scale, reading);
    hang = (a + b) / 2;
    const half = textWidth(reading.text, figure, true) / 2;
    const x = kept(hang, Math.min(half, width / 2), Math.max(width - half, width / 2));
    const setting = { size: figure, anchor: 'middle', bold: true, halo: true } as const;
    before.push(type(pen, x, blockTop - figure * 0.32, reading.text, setting));
  }

  const posts = [
    ...over.flatMap((set) =>
      span(pen, scale, set, { dim: top - small * 0.75, far: top - small * 1.35, base }),
    ),
    ...under.flatMap((set) =>
      span(pen, scale, set, { dim: base + small * 1.15, far: base + small * 1.75, base: top }),
    ),
  ];
  const ground = [
    line(scale.start, base, scale.end, base, stroke(pen.ink, thin)),
    ...forbidden(sets, scale, base, label * 0.5, stroke(pen.ink, hair)),
  ];
  const labels = [
    ...over.flatMap((set) => figures(pen, scale, set, label, width)),
    ...under.flatMap((set) => figures(pen, scale, set, base + small * 1.75 + label * 1.05, width)),
  ];
  const foot = base + (under.length > 0 ? small * 1.75 + label * 1.4 : label * 0.7);
  const move = hung(pen, rail.next, hang ?? width / 2, base, foot, width);
  const marks = [...move.string, ...behind, ...ground, ...posts, ...before, ...labels, ...move.words];
  return svg(picture, pen, width, move.bottom, marks);
}

function ordered(block: RailBlock): RailBlock {
  const [from, to] = [finite(block.from), finite(block.to)];
  const turned = from !== undefined && to !== undefined && from > to;
  return { ...block, from: turned ? to : from, to: turned ? from : to, best: finite(block.best) };
}

function drawable(set: RailSet): RailSet {
  const post = (of: RailPost | undefined): RailPost | undefined =>
    of !== undefined && Number.isFinite(of.at) ? of : undefined;
  return { ...set, lower: post(set.lower), upper: post(set.upper), target: post(set.target) };
}

function gutter(texts: readonly string[], size: number): number {
  return Math.max(0, ...texts.map((text) => textWidth(text, size))) + size;
}

function railScale(
  sets: readonly RailSet[],
  blocks: readonly RailBlock[],
  start: number,
  end: number,
): Scale {
  const marks = [
    ...sets.flatMap(({ lower, upper, target }) => [lower?.at, upper?.at, target?.at]),
    ...blocks.flatMap(({ from, to, best }) => [from, to, best]),
  ].filter((mark) => mark !== undefined);
  const [least, most] = marks.length > 0 ? [Math.min(...marks), Math.max(...marks)] : [0, 1];
  // Halved before they are taken from each other: the two ends of the number range would overflow.
  const reach = (most / 2 - least / 2) * 2 || Math.abs(most) || 1;
  const margin = reach * 0.16;
  const [low, high] = [least - margin, most + margin];
  const x = (value: number): number => {
    const part = (value / 2 - low / 2) / (high / 2 - low / 2);
    return start + kept(Number.isFinite(part) ? part : 0.5, 0, 1) * (end - start);
  };
  return { start, end, x };
}

function edges(scale: Scale, { from, to }: RailBlock): readonly [number, number] {
  const [a, b] = [
    from === undefined ? scale.start : scale.x(from),
    to === undefined ? scale.end : scale.x(to),
  ];
  // A reading without width is still to be seen.
  return b - a >= 3 ? [a, b] : [(a + b) / 2 - 1.5, (a + b) / 2 + 1.5];
}

function block(
  pen: Pen,
  scale: Scale,
  of: RailBlock,
  y: number,
  height: number,
  tint: number,
  mark: string,
): string {
  if (of.from === undefined && of.to === undefined) return '';
  const [a, b] = edges(scale, of);
  const nib = Math.min(height * 0.6, (b - a) / 2);
  const [openLeft, openRight] = [of.from === undefined, of.to === undefined];
  // An open end runs off as a point, not as an edge.
  const shape: (readonly [number, number])[] = [
    [openLeft ? a + nib : a, y],
    [openRight ? b - nib : b, y],
    ...(openRight ? [[b, y + height / 2] as const] : []),
    [openRight ? b - nib : b, y + height],
    [openLeft ? a + nib : a, y + height],
    ...(openLeft ? [[a, y + height / 2] as const] : []),
  ];
  const outline = `stroke="${pen.ink}" stroke-width="${num(pen.size.line)}" stroke-linejoin="miter"`;
  const best =
    of.best === undefined
      ? ''
      : line(scale.x(of.best), y, scale.x(of.best), y + height, stroke(pen.ink, pen.size.line));
  const where = `data-mark="${mark}" data-from="${num(a)}" data-to="${num(b)}"`;
  return `<g ${where}>${polygon(shape, `fill="${pen.paper}"`)}${polygon(shape, `${pen.tint(tint)} ${outline}`)}${best}</g>`;
}

/** Posts of one set with the dimension line between them. */
function span(
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
  const target = set.target === undefined ? undefined : scale.x(set.target.at);
  return [
    line(a, at.dim, b, at.dim, stroke(pen.ink, hair)),
    set.lower ? arrow(a + gap, -1) : '',
    set.upper ? arrow(b - gap, 1) : '',
    post(set.lower, 'lower'),
    post(set.upper, 'upper'),
    target === undefined
      ? ''
      : line(target, at.dim - head * 0.6, target, at.dim + head * 0.6, stroke(pen.ink, pen.size.line)),
    type(
      pen,
      (a + b) / 2,
      at.dim + small * 0.34,
      b - a > textWidth(set.name, small) + small * 2.5 ? set.name : '',
      {
        size: small,
        anchor: 'middle',
        colour: pen.soft,
        halo: true,
      },
    ),
  ];
}

/** The limits' figures on one line. */
function figures(pen: Pen, scale: Scale, set: RailSet, y: number, width: number): string[] {
  const { label } = pen.size;
  const named =
    set.lower !== undefined && set.upper !== undefined
      ? scale.x(set.upper.at) - scale.x(set.lower.at) >
        textWidth(set.name, pen.size.small) + pen.size.small * 2.5
      : true;
  const labels = [set.lower, set.target, set.upper]
    .filter((post) => post !== undefined)
    .map((post, i) => ({
      text: !named && i === 0 ? `${set.name} ${post.text}` : post.text,
      x: scale.x(post.at),
    }))
    .map(({ text, x }) => ({ text, x, width: textWidth(text, label) }))
    .sort((one, other) => one.x - other.x);
  const centres = spread(labels, 0, width, label * 0.6);
  return labels.map(({ text }, i) => type(pen, centres[i]!, y, text, { size: label, anchor: 'middle' }));
}

/** Hatching under the rail where no set of limits lets a reading be. */
function forbidden(sets: readonly RailSet[], scale: Scale, y: number, depth: number, ink: string): string[] {
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

function hung(
  pen: Pen,
  next: string | undefined,
  x: number,
  base: number,
  foot: number,
  width: number,
): { readonly string: readonly string[]; readonly words: readonly string[]; readonly bottom: number } {
  if (next === undefined || next.trim() === '') return { string: [], words: [], bottom: foot };
  const { label, line: thin, small } = pen.size;
  const lines = wrapped(next, label, width - label * 1.6, true);
  const longest = Math.max(...lines.map((words) => textWidth(words, label, true)));
  const top = foot + small * 0.9;
  const pad = label * 0.8;
  const plate = Math.min(width - thin, longest + pad * 2);
  const left = kept(x - plate / 2, thin / 2, width - plate - thin / 2);
  const height = lines.length * label * 1.3 + label * 0.7;
  const frame = rect(left, top, plate, height, stroke(pen.accent, thin));
  const words = lines.map((words, i) =>
    type(pen, left + plate / 2, top + label * (1.3 + i * 1.3), words, {
      size: label,
      anchor: 'middle',
      bold: true,
    }),
  );
  return {
    string: [line(x, base, x, top, stroke(pen.accent, thin))],
    words: [`<g data-mark="next">${frame}${words.join('')}</g>`],
    bottom: top + height + thin,
  };
}

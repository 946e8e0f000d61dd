import { hung } from './rail-hanging.ts';
import { figures, forbidden, span } from './rail-limits.ts';
import { type RailBlock, type RailPost, type RailSet, railScale, type Scale } from './rail-scale.ts';
import { finite } from './svg/finite.ts';
import { line, num, polygon, rect, type Setting, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';

/** What a limit rail shows, all numbers in one unit. */
export interface LimitRail {
  readonly sets: readonly RailSet[];
  readonly reading?: RailBlock | undefined;
  /** Thinner blocks above the reading. */
  readonly witnesses?: readonly RailBlock[] | undefined;
  /** The next move, hung under the block. */
  readonly next?: string | undefined;
}

/**
 * The limit rail: limits as posts, the reading as a block as wide as its uncertainty. A block across a post is
 * what "cannot tell" looks like.
 */
export function limitRailSvg(rail: LimitRail, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, heavy, line: thin, hair } = pen.size;
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
  const row = wide ? label * 1.7 : small * 1.5 + label * 0.95;
  const blockTop = top + label * 0.6 + witnesses.length * row;
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
      before.push(plated(pen, scale.start, text, witness.name ?? '', { size: small, colour: pen.soft }));
      before.push(plated(pen, scale.end, text, witness.text, { size: small, anchor: 'end' }));
      behind.push(block(pen, scale, witness, y + small * 1.4, height, 1, 'witness'));
    }
  });
  let hang: number | undefined;
  if (reading !== undefined) {
    behind.push(block(pen, scale, reading, blockTop, blockHeight, 3, 'reading'));
    const [a, b] = edges(scale, reading);
    hang = (a + b) / 2;
  }

  // Broken posts first: where both sets share a limit, the full post stands above and the broken one below.
  const posts = [
    ...under.flatMap((set) =>
      span(pen, scale, set, { dim: base + small * 1.15, far: base + small * 1.75, base: top }),
    ),
    ...over.flatMap((set) =>
      span(pen, scale, set, { dim: top - small * 0.75, far: top - small * 1.35, base }),
    ),
  ];
  const ground = [
    line(scale.start, base, scale.end, base, stroke(pen.ink, thin)),
    ...forbidden(sets, scale, base, label * 0.5, stroke(pen.ink, hair)),
  ];
  const labels = [
    ...over.flatMap((set) => figures(pen, scale, set, label, width)),
    ...under.flatMap((set) => figures(pen, scale, set, base + small * 1.75 + label * 1.05, width, hang)),
  ];
  const foot = base + (under.length > 0 ? small * 1.75 + label * 1.4 : label * 0.7);
  const move = hung(pen, {
    reading: reading?.text,
    next: rail.next,
    x: hang ?? width / 2,
    base,
    foot,
    width,
  });
  const marks = [...move.string, ...behind, ...ground, ...posts, ...before, ...labels, ...move.words];
  return svg(picture, pen, width, move.bottom, marks);
}

/** Words on paper of their own: a post runs on behind them, not between their letters. */
function plated(pen: Pen, x: number, base: number, text: string, setting: Setting): string {
  const width = textWidth(text, setting.size);
  const plate = rect(
    setting.anchor === 'end' ? x - width : x,
    base - setting.size * 0.95,
    width,
    setting.size * 1.25,
    `fill="${pen.paper}"`,
  );
  return text === '' ? '' : plate + type(pen, x, base, text, setting);
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

import { escaped } from './svg/escaped.ts';
import { finite } from './svg/finite.ts';
import { line, num, polygon, rect, stroke, svg, type } from './svg/marks.ts';
import { type Pen, penOf } from './svg/pen.ts';
import { drawnWidth, type Picture } from './svg/picture.ts';
import { textWidth } from './svg/text-width.ts';

/** One feeler leaf. */
export interface Leaf {
  /** Given back as `data-leaf`. */
  readonly id: string;
  /** In any unit; it orders the rungs and sets how heavy they are drawn. */
  readonly thickness: number;
  readonly text: string;
  readonly state: 'goes' | 'drags' | 'not' | 'untried';
  /** The one to try next. */
  readonly next?: boolean | undefined;
}

/** The leaves owned, in any order, and the words that stand on the rungs. */
export interface LeafLadder {
  readonly leaves: readonly Leaf[];
  readonly words: {
    readonly goes: string;
    /** Where a leaf may be said to drag. */
    readonly drags?: string | undefined;
    readonly not: string;
    readonly untried: string;
    readonly next: string;
    /** Stands where the gap must lie, between the last that goes and the first that does not. */
    readonly gap?: string | undefined;
  };
  /** Rungs as high as a finger's target, each a button in the tab order. */
  readonly tappable?: boolean | undefined;
}

/**
 * The leaf ladder, thinnest leaf at the foot. The two uprights are the gap's walls: a leaf that goes reaches
 * through both, one that does not is stopped at the first, an untried one hangs before it as an outline.
 */
export function leafLadderSvg(ladder: LeafLadder, picture: Picture): string {
  const pen = penOf(picture);
  const width = drawnWidth(picture);
  const { label, small, target, gap, heavy, line: thin, hair } = pen.size;
  const leaves = ladder.leaves
    .filter(({ thickness }) => finite(thickness) !== undefined)
    .toSorted((one, other) => other.thickness - one.thickness);
  const pitch = ladder.tappable === true ? target + gap : label * 1.75;
  const pad = small * 0.8;
  const height = Math.max(1, leaves.length) * pitch + pad * 2;
  const thickest = Math.max(...leaves.map(({ thickness }) => thickness), 0);
  const figures = Math.max(0, ...leaves.map(({ text }) => textWidth(text, label, true)));
  const { goes, drags = goes, not, untried, next } = ladder.words;
  const words = Math.max(...[goes, drags, not, untried, next].map((word) => textWidth(word, label, true)));
  const start = figures + label;
  const end = Math.max(start + label * 4, width - words - label * 1.4);
  const walls = [start + (end - start) * 0.42, start + (end - start) * 0.74] as const;
  const middle = (i: number): number => pad + (i + 0.5) * pitch;

  const rungs = leaves.map((leaf, i) => {
    const y = middle(i);
    const weight = heavy * 0.7 + (thickest > 0 ? (Math.max(0, leaf.thickness) / thickest) * heavy * 1.3 : 0);
    const isNext = leaf.next === true;
    const hit = rect(
      0,
      y - (pitch - (ladder.tappable ? gap : 0)) / 2,
      width,
      pitch - (ladder.tappable ? gap : 0),
      'fill="transparent"',
    );
    const frame = isNext
      ? rect(
          thin / 2,
          y - Math.min(pitch, target) * 0.46,
          width - thin,
          Math.min(pitch, target) * 0.92,
          stroke(pen.accent, thin),
        )
      : '';
    const word = { goes, drags, not, untried: isNext ? next : untried }[leaf.state];
    const texts =
      type(pen, figures + label * 0.4, y + label * 0.35, leaf.text, {
        size: label,
        anchor: 'end',
        bold: leaf.state !== 'untried' || isNext,
      }) +
      type(pen, end + label * 0.6, y + label * 0.35, word, {
        size: label,
        bold: isNext,
        colour: leaf.state === 'untried' && !isNext ? pen.soft : pen.ink,
      });
    const role = ladder.tappable
      ? ` role="button" tabindex="0" aria-label="${escaped(`${leaf.text}, ${word}`)}"`
      : '';
    return `<g data-leaf="${escaped(leaf.id)}" data-state="${leaf.state}"${isNext ? ' data-next="true"' : ''}${role}>${hit}${frame}${rung(pen, leaf, y, weight, start, end, walls)}${texts}</g>`;
  });

  const uprights = walls.map((x) => line(x, pad * 0.4, x, height - pad * 0.4, stroke(pen.ink, heavy)));
  return svg(
    picture,
    pen,
    width,
    height,
    [...bracket(pen, leaves, walls, middle, ladder.words.gap, hair), ...uprights, ...rungs],
    ladder.tappable === true ? 'group' : 'img',
  );
}

function rung(
  pen: Pen,
  leaf: Leaf,
  y: number,
  weight: number,
  start: number,
  end: number,
  [near, far]: readonly [number, number],
): string {
  const { heavy, hair, small } = pen.size;
  if (leaf.state === 'goes') {
    // The notch: a clear edge where the leaf passes through the walls.
    const clear = rect(near - heavy, y - weight, far - near + heavy * 2, weight * 2, `fill="${pen.paper}"`);
    return clear + rect(start, y - weight / 2, end - start, weight, `fill="${pen.ink}"`);
  }
  // It reaches through and touches: no clear edge at the walls.
  if (leaf.state === 'drags') return rect(start, y - weight / 2, end - start, weight, `fill="${pen.ink}"`);
  const stop = near - heavy / 2;
  if (leaf.state === 'not') {
    const blunt = small * 0.55;
    return (
      rect(start, y - weight / 2, stop - start, weight, `fill="${pen.ink}"`) +
      polygon(
        [
          [stop - heavy * 1.4, y - blunt],
          [stop, y - blunt],
          [stop, y + blunt],
          [stop - heavy * 1.4, y + blunt],
        ],
        `fill="${pen.ink}"`,
      )
    );
  }
  const short = stop - (stop - start) * 0.3;
  return rect(
    start,
    y - weight / 2,
    short - start,
    weight,
    `fill="${pen.paper}" stroke="${pen.soft}" stroke-width="${num(hair)}"`,
  );
}

/** The grey between the walls where the gap must lie; open at an end that no leaf has bounded. */
function bracket(
  pen: Pen,
  leaves: readonly Leaf[],
  [near, far]: readonly [number, number],
  middle: (i: number) => number,
  word: string | undefined,
  hair: number,
): string[] {
  const goes = leaves.findIndex(({ state }) => state === 'goes' || state === 'drags');
  const not = leaves.findLastIndex(({ state }) => state === 'not');
  // Answers that contradict each other bracket nothing, and one alone bounds no gap between leaves.
  if (goes < 0 || not < 0 || not > goes) return [];
  const [top, bottom] = [middle(not), middle(goes)];
  const { small } = pen.size;
  const wordFits = word !== undefined && textWidth(word, small) < far - near - small;
  return [
    `<g data-mark="gap">${rect(near, top, far - near, bottom - top, pen.tint(2))}`,
    line(near, top, far, top, stroke(pen.ink, hair, `${num(small * 0.3)} ${num(small * 0.2)}`)),
    wordFits && bottom - top > small * 1.6
      ? type(pen, (near + far) / 2, (top + bottom) / 2 + small * 0.15, word, {
          size: small,
          anchor: 'middle',
        })
      : '',
    '</g>',
  ];
}

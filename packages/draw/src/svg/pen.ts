import { escaped } from './escaped.ts';
import { type Picture, type Sizes, sizesOf } from './picture.ts';

/** The inks of a picture. On the page they are the page's own, so that light and dark need nothing more. */
export interface Pen {
  readonly size: Sizes;
  readonly font: string;
  readonly ink: string;
  /** For what only accompanies: names, units, ticks. */
  readonly soft: string;
  /** Hairlines. */
  readonly rule: string;
  readonly paper: string;
  readonly accent: string;
  /** Attributes that fill with one of five greys, 0 the lightest; type in ink stays readable on all. */
  readonly tint: (step: number) => string;
}

/** How many greys an eye tells apart on poor paper without a neighbour to compare with. */
export const TINTS = 5;

// The share of ink in each step. The darkest leaves a contrast of at least 4.5 to type in ink upon it.
const SHARE = [0, 0.09, 0.18, 0.28, 0.39];

/** The pen that belongs to a picture. */
export function penOf(picture: Picture): Pen {
  const font = escaped(picture.font ?? "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', sans-serif");
  const step = (wanted: number): number =>
    Math.min(TINTS - 1, Math.max(0, Number.isFinite(wanted) ? Math.trunc(wanted) : 0));
  const size = sizesOf(picture.profile);
  if (picture.paper === true) {
    const grey = (share: number): string => {
      const level = Math.round(255 * (1 - share))
        .toString(16)
        .padStart(2, '0');
      return `#${level}${level}${level}`;
    };
    return {
      size,
      font,
      ink: '#111111',
      soft: '#444444',
      rule: '#999999',
      paper: '#ffffff',
      accent: '#111111',
      tint: (wanted) => `fill="${grey(SHARE[step(wanted)]!)}"`,
    };
  }
  return {
    size,
    font,
    ink: 'var(--ink, #111)',
    soft: 'var(--ink-soft, #444)',
    rule: 'var(--rule, #999)',
    paper: 'var(--paper, #fff)',
    accent: 'var(--accent, #a33b12)',
    tint: (wanted) => `fill="var(--ink, #111)" fill-opacity="${SHARE[step(wanted)]}"`,
  };
}

/** Where a picture is looked at: it decides the size of the type. `paper` counts in points. */
export type Profile = 'phone' | 'tablet' | 'desk' | 'paper';

/** What every picture is told besides what it shows. */
export interface Picture {
  /** Read out in place of the picture. */
  readonly title: string;
  /** What the picture says, in a sentence or two, for those who do not see it. */
  readonly desc: string;
  /** In CSS pixels, on paper in points. The height follows from what is shown. */
  readonly width: number;
  readonly profile: Profile;
  /** Plain black and greys written out, for a renderer that knows no custom properties. */
  readonly paper?: boolean;
  /** The value of `font-family`. */
  readonly font?: string;
}

/** Sizes of type and line, all in the picture's units. */
export interface Sizes {
  /** The figure that matters most. */
  readonly figure: number;
  readonly label: number;
  readonly small: number;
  /** A target for a knuckle, and what lies between two. */
  readonly target: number;
  readonly gap: number;
  readonly hair: number;
  readonly line: number;
  readonly heavy: number;
}

// Targets and gaps are 15 mm and 3 mm at the profile's own scale (6.0, 5.2 and 3.8 px/mm).
const SIZES: Readonly<Record<Profile, Sizes>> = {
  phone: { figure: 26, label: 18, small: 15, target: 90, gap: 18, hair: 1, line: 2, heavy: 4 },
  tablet: { figure: 28, label: 18, small: 15, target: 78, gap: 16, hair: 1, line: 2, heavy: 4 },
  desk: { figure: 22, label: 15, small: 13, target: 57, gap: 12, hair: 1, line: 1.75, heavy: 3.5 },
  paper: { figure: 11, label: 8.5, small: 7.25, target: 24, gap: 4, hair: 0.4, line: 0.8, heavy: 1.7 },
};

/** The sizes that belong to a profile. */
export function sizesOf(profile: Profile): Sizes {
  return SIZES[profile];
}

/** The width to draw in: what was asked for, but never too little for a line of type. */
export function drawnWidth(picture: Picture): number {
  const least = SIZES[picture.profile].label * 12;
  return Number.isFinite(picture.width) ? Math.max(least, picture.width) : least * 2;
}

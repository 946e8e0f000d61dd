import { type Metre, metre, type SquareMetre, squareMetre } from '../units/si.ts';

/** The two 60° forms the program knows. 55° Whitworth forms and BA have other flanks and are not among them. */
type ThreadForm = 'unified' | 'metric';

export interface Thread {
  /** As the standard writes it: `5/16-18 UNC`, `M8x1.25`. */
  readonly designation: string;
  readonly form: ThreadForm;
  /** `UNC`, `UNF`, `UNEF`, `UN`, `UNS`, `coarse` or `fine`. */
  readonly series: string;
  /** d, nominal major diameter [m]. */
  readonly major: Metre;
  /** P, pitch [m]. */
  readonly pitch: Metre;
}

const INCH = 0.0254;

/** A Unified thread from its size [m] and its threads per inch, without asking whether a series holds it. */
export function unifiedThread(major: Metre, perInch: number, series = 'UNS', size?: string): Thread {
  const name = size ?? String(Number((major / INCH).toFixed(4)));
  const pitch = metre(INCH / perInch);
  return { designation: `${name}-${perInch} ${series}`, form: 'unified', series, major, pitch };
}

/** An ISO metric thread from its size and pitch [m], without asking whether a series holds it. */
export function metricThread(major: Metre, pitch: Metre, series = 'fine'): Thread {
  const mm = (value: number) => String(Number((value * 1000).toFixed(4)));
  return { designation: `M${mm(major)}x${mm(pitch)}`, form: 'metric', series, major, pitch };
}

/**
 * Basic pitch diameter, d2 = d − 0.649519 P [m].
 *
 * @source iso-724, asme-b1-1
 */
export function pitchDiameter({ major, pitch }: Thread): Metre {
  return metre(major - 0.649519 * pitch);
}

/**
 * Basic minor diameter of the internal thread, D1 = D − 1.082532 P [m]: the tapping size.
 *
 * @source iso-724, asme-b1-1
 */
export function minorDiameterInternal({ major, pitch }: Thread): Metre {
  return metre(major - 1.082532 * pitch);
}

/**
 * Minor diameter of the external thread at its rounded root [m]:
 * metric d3 = d − 1.226869 P, Unified UNR d − 1.19078 P.
 *
 * @source iso-724, asme-b1-1
 */
export function minorDiameterExternal({ form, major, pitch }: Thread): Metre {
  return metre(major - (form === 'metric' ? 1.226869 : 1.19078) * pitch);
}

/**
 * Diameter of the stress area [m]: metric (d2 + d3)/2 = d − 0.938194 P, Unified d − 0.974279 P.
 * The constants differ: the standards took different roots, and one must not serve for both.
 *
 * @source iso-898-1, asme-b1-1
 */
export function stressDiameter({ form, major, pitch }: Thread): Metre {
  return metre(major - (form === 'metric' ? 0.938194 : 0.974279) * pitch);
}

/** Tensile stress area, A = (π/4) ds² [m²]. */
export function stressArea(thread: Thread): SquareMetre {
  return squareMetre((Math.PI / 4) * stressDiameter(thread) ** 2);
}

/**
 * Minor-diameter area as the handbook tables print it [m²]: metric (π/4) d3²; Unified (π/4)(d − 1.299038 P)²,
 * which rests on a sharper root than any real one and so errs on the small side.
 *
 * @source shigley-fasteners
 */
export function minorDiameterArea(thread: Thread): SquareMetre {
  const root =
    thread.form === 'metric' ? minorDiameterExternal(thread) : thread.major - 1.299038 * thread.pitch;
  return squareMetre((Math.PI / 4) * root ** 2);
}

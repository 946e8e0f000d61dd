import { failed, type Issue, metre, type Outcome, ok } from '@fettle/core';

/** How a bore is cut or a journal ground. Nothing of it is printed: it is assumed, and can be said otherwise. */
export interface Cutting {
  /** Least and most of the wear that may lie on one side: ½ is all round alike. */
  readonly oneSided: readonly [number, number];
  /** The most by which the cut runs off the axis as made [m]. */
  readonly eccentricity: number;
  /** Left on the diameter for honing or polishing [m]. */
  readonly stock: number;
  /** Which of them were said; the others are assumed. */
  readonly said: readonly (keyof CuttingSaid)[];
}

export interface CuttingSaid {
  /** Most of the wear on one side, ½ to 1. */
  readonly oneSided?: number;
  /** [m] */
  readonly eccentricity?: number;
  /** [m] */
  readonly stock?: number;
}

const INCH = 0.0254;

/** Common practice, no source: .0025 in to hone after boring, .0005 in to polish after grinding, .001 in of set-up. */
const ASSUMED = {
  bore: { stock: metre(0.0025 * INCH), eccentricity: metre(0.001 * INCH) },
  journal: { stock: metre(0.0005 * INCH), eccentricity: metre(0.001 * INCH) },
} as const;

const EVEN = 0.5;
/** A tenth of an inch: beyond it something was meant in another unit. */
const MOST = 0.1 * INCH;

const issue = (at: string, got: number, wanted: string, message: string): Issue => ({
  code: 'sizes/cutting',
  at,
  got: String(got),
  wanted,
  message,
});

export function cuttingOf(cut: 'bore' | 'journal', said: CuttingSaid): Outcome<Cutting> {
  const { oneSided = 1 } = said;
  const { stock = ASSUMED[cut].stock, eccentricity = ASSUMED[cut].eccentricity } = said;
  if (!(oneSided >= EVEN && oneSided <= 1))
    return failed(
      issue(
        'one-sided',
        oneSided,
        '0.5 to 1',
        `${oneSided} of the wear cannot lie on its worst side: say 0.5, worn alike all round, up to 1.`,
      ),
    );
  for (const [at, value] of [
    ['stock', stock],
    ['eccentricity', eccentricity],
  ] as const)
    if (!(value >= 0 && value <= MOST))
      return failed(
        issue(at, value, '0 to 0.1 in', `A ${at} of ${value} m is out of reason. Check it and its unit.`),
      );
  return ok({
    oneSided: [EVEN, oneSided],
    eccentricity,
    stock,
    said: (['oneSided', 'eccentricity', 'stock'] as const).filter((key) => said[key] !== undefined),
  });
}

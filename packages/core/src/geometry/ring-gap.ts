import { type Metre, metre } from '../units/si.ts';

/**
 * Gap of a ring in another bore: its circumference is what it is, so the gap grows by π times the diameter.
 *
 *     g = g₁ + π (D − D₁)
 *
 * @param gap   g₁, as measured with the ring square in a bore of diameter `from` [m]
 * @returns     g in a bore of diameter `to`; below zero the ends would meet first [m]
 * @source      ring-circumference
 */
export const ringGapIn = (gap: Metre, from: Metre, to: Metre): Metre => metre(gap + Math.PI * (to - from));

/** Diameter by which a bore differs where the same ring's gap differs: Δg/π. It finds taper without a bore gauge. */
export const diameterFromGap = (difference: Metre): Metre => metre(difference / Math.PI);

/** What to file off the ends together; nothing where the gap is wide enough. */
export const filingFor = (gap: Metre, wanted: Metre): Metre => metre(Math.max(0, wanted - gap));

/** Gap per diameter that is asked for where nothing is printed: .003 to .004. Common practice, no source. */
export const GAP_PER_BORE = { least: 0.003, most: 0.004 } as const;

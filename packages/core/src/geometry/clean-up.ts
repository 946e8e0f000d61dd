import { type Metre, metre } from '../units/si.ts';

/** What a cut has to reach past the worst point. Lengths on the diameter but for the eccentricity. */
export interface CleanUp {
  /** How much of the wear lies on one side: 1, all of it; ½, worn alike on both. */
  readonly oneSided: number;
  /** e, of the new axis from the axis as made [m]. */
  readonly eccentricity: Metre;
  /** What is left for honing or polishing after the cut, on the diameter [m]. */
  readonly stock: Metre;
}

/**
 * Least finished diameter of a bore that leaves nothing of the worn surface.
 *
 * The new circle has to hold the worn one. From the axis as made the worn wall lies at most
 *
 *     D₀/2 + s (D − D₀)
 *
 * away, s being the share of the wear on its worst side. A cut whose axis is off by e has to reach e further, and the
 * hone takes h after it:
 *
 *     D_f = D₀ + 2 s (D − D₀) + 2 e + h
 *
 *            ┌ as made, D₀          s = ½: worn alike all round, D_f = D + 2e + h
 *         ╭──┴──╮▒                  s = 1: all on one side,      D_f = 2D − D₀ + 2e + h
 *        │   +   │▒ ← worn to D
 *         ╰─────╯▒
 *
 * @param worst  D, the largest diameter measured [m]
 * @param asMade D₀; the least it can have been asks for the most [m]
 * @source circles-held
 */
export function cleanUpBore(worst: Metre, asMade: Metre, { oneSided, eccentricity, stock }: CleanUp): Metre {
  return metre(asMade + 2 * oneSided * Math.max(0, worst - asMade) + 2 * eccentricity + stock);
}

/**
 * Greatest finished diameter of a journal that leaves nothing of the worn surface: the bore's rule turned inside out,
 *
 *     d_f = d₀ − 2 s (d₀ − d) − 2 e − h
 *
 * @param worst  d, the smallest diameter measured [m]
 * @param asMade d₀; the greatest it can have been asks for the most [m]
 * @source circles-held
 */
export function cleanUpJournal(
  worst: Metre,
  asMade: Metre,
  { oneSided, eccentricity, stock }: CleanUp,
): Metre {
  return metre(asMade - 2 * oneSided * Math.max(0, asMade - worst) - 2 * eccentricity - stock);
}

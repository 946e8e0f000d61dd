import { incompleteBeta } from './gamma.ts';

/**
 * Probability that the ratio of two variance estimates of one variance exceeds F.
 *
 *     P = I_x(ν₂/2, ν₁/2),  x = ν₂ / (ν₂ + ν₁ F)
 *
 * @param ratio   F, 0 or more
 * @param above   ν₁, degrees of freedom of the upper estimate
 * @param below   ν₂, of the lower
 * @source as-26 26.6.2
 */
export const varianceRatioAbove = (ratio: number, above: number, below: number): number =>
  ratio === Number.POSITIVE_INFINITY
    ? 0
    : incompleteBeta(below / (below + above * ratio), below / 2, above / 2);

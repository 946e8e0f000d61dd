import { type Metre, metre } from '../units/si.ts';

/**
 * Length to cut a packing that lies in a half-round groove and stands out at both ends, so that the cap squeezes it:
 * L = π r + 2 e [m].
 *
 * @param meanRadius  r, of the packing's middle in its groove [m]
 * @param standOut    e, at each end [m]
 * @source half-circle-arc
 */
export function endSealLength(meanRadius: Metre, standOut: Metre): Metre {
  return metre(Math.PI * meanRadius + 2 * standOut);
}

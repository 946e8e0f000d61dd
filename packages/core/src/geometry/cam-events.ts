import { type Radian, radian } from '../units/si.ts';

/** Crank angles at one stated lift; an event on the other side of its dead centre is negative. */
export interface CamEvents {
  /** Before top dead centre. */
  readonly inletOpens: Radian;
  /** After bottom dead centre. */
  readonly inletCloses: Radian;
  /** Before bottom dead centre. */
  readonly exhaustOpens: Radian;
  /** After top dead centre. */
  readonly exhaustCloses: Radian;
}

/**
 * Durations, overlap and lobe centres of symmetric lobes. Centres: inlet after, exhaust before top dead centre, crank
 * angle; separation in cam angle; advance positive when the cam leads.
 *
 * @source cam-geometry
 */
export function camTiming({ inletOpens, inletCloses, exhaustOpens, exhaustCloses }: CamEvents) {
  const inletCentre = (Math.PI + inletCloses - inletOpens) / 2;
  const exhaustCentre = (Math.PI + exhaustOpens - exhaustCloses) / 2;
  return {
    inletDuration: radian(inletOpens + Math.PI + inletCloses),
    exhaustDuration: radian(exhaustOpens + Math.PI + exhaustCloses),
    overlap: radian(inletOpens + exhaustCloses),
    inletCentre: radian(inletCentre),
    exhaustCentre: radian(exhaustCentre),
    separation: radian((inletCentre + exhaustCentre) / 2),
    advance: radian((exhaustCentre - inletCentre) / 2),
  };
}

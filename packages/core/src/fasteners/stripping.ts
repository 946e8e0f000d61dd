import { type Metre, metre, type Pascal, type SquareMetre, squareMetre } from '../units/si.ts';
import type { ThreadLimits } from './thread-limits.ts';

/** tan 30°, as the handbooks print it. */
const TAN_30 = 0.57735;

type Limits = Omit<ThreadLimits, 'fit'>;

/**
 * Area of the bolt's thread sheared at the bore of the hole:
 * A_s = π n L_e Kn,max [1/(2n) + 0.57735 (Es,min − Kn,max)], n = 1/P [m²].
 *
 * @source fed-std-h28-2
 */
export function externalShearArea(pitch: Metre, engagement: Metre, limits: Limits): SquareMetre {
  const { internalMinorMax: k, externalPitchMin: e } = limits;
  return squareMetre((Math.PI / pitch) * engagement * k * (pitch / 2 + TAN_30 * (e - k)));
}

/**
 * Area of the hole's thread sheared at the outside of the bolt:
 * A_n = π n L_e Ds,min [1/(2n) + 0.57735 (Ds,min − En,max)] [m²].
 *
 * @source fed-std-h28-2
 */
export function internalShearArea(pitch: Metre, engagement: Metre, limits: Limits): SquareMetre {
  const { externalMajorMin: d, internalPitchMax: e } = limits;
  return squareMetre((Math.PI / pitch) * engagement * d * (pitch / 2 + TAN_30 * (d - e)));
}

/**
 * Engagement at which a bolt breaks before the threads of equal strength strip:
 * L_e = 2 A_t/{π Kn,max [0.5 + 0.57735 n (Es,min − Kn,max)]}, shear strength half of tensile [m].
 *
 * @source fed-std-h28-2
 */
export function equalStrengthEngagement(area: SquareMetre, pitch: Metre, limits: Limits): Metre {
  return metre((2 * area) / externalShearArea(pitch, metre(1), limits));
}

/**
 * Strength of the bolt's thread over that of the hole's, J = A_s S_ext/(A_n S_int). Over 1 the hole is the weaker
 * and the engagement must be J times as long.
 *
 * @source fed-std-h28-2
 */
export function stripRatio(pitch: Metre, limits: Limits, external: Pascal, internal: Pascal): number {
  const one = metre(1);
  return (
    (externalShearArea(pitch, one, limits) * external) / (internalShearArea(pitch, one, limits) * internal)
  );
}

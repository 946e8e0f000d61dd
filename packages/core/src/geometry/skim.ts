import { type CubicMetre, cubicMetre, type Metre, metre, type SquareMetre } from '../units/si.ts';

/**
 * What a skim takes off a chamber: area of its mouth times depth. It holds while the walls at the face stand square;
 * a sloping wall gives less with every cut, and the measured figure per depth is the better one.
 *
 * @param mouth  area of the chamber in the gasket face [m²]
 * @source       definition of a prism
 */
export const skimmedVolume = (mouth: SquareMetre, depth: Metre): CubicMetre => cubicMetre(mouth * depth);

/**
 * Depth that may come off before the compression ratio reaches a greatest one:
 *
 *     V_c(d) = V_c − A d,   r = (V_s + V_c(d))/V_c(d)   so   d = (V_c − V_s/(r − 1))/A
 *
 * @param clearance  V_c, all that lies above the piston now [m³]
 * @returns          below zero where the ratio is over it already [m]
 * @source           heywood-1988 for the ratio
 */
export const skimForRatio = (
  swept: CubicMetre,
  clearance: CubicMetre,
  mouth: SquareMetre,
  ratio: number,
): Metre => metre((clearance - swept / (ratio - 1)) / mouth);

/** Depth that may come off before a chamber is down to a least volume [m]. */
export const skimForVolume = (chamber: CubicMetre, least: CubicMetre, mouth: SquareMetre): Metre =>
  metre((chamber - least) / mouth);

import {
  type CubicMetre,
  cubicMetre,
  type Metre,
  metre,
  type SquareMetre,
  squareMetre,
} from '../units/si.ts';

/** Area of the piston crown seen from above, π B²/4 [m²]. */
export function pistonArea(bore: Metre): SquareMetre {
  return squareMetre((Math.PI / 4) * bore ** 2);
}

/**
 * Swept volume of one cylinder, π B² S/4 [m³].
 *
 * @source heywood-1988
 */
export function sweptVolume(bore: Metre, stroke: Metre): CubicMetre {
  return cubicMetre(pistonArea(bore) * stroke);
}

/** Bore and stroke from a swept volume and B/S. */
export function boreForVolume(swept: CubicMetre, boreOverStroke: number): Metre {
  return metre(Math.cbrt((4 * swept * boreOverStroke) / Math.PI));
}

/** What lies above the piston at top dead centre. Ring-land crevice is not counted. */
export interface Clearance {
  readonly bore: Metre;
  readonly chamber: CubicMetre;
  readonly gasketThickness?: Metre | undefined;
  readonly gasketBore?: Metre | undefined;
  /** Piston below the deck; negative above it. */
  readonly deck?: Metre | undefined;
  /** Hollow of the crown; negative for a dome. */
  readonly dish?: CubicMetre | undefined;
}

/** Chamber, gasket, deck and dish together [m³]. */
export function clearanceVolume({
  bore,
  chamber,
  gasketThickness,
  gasketBore,
  deck,
  dish,
}: Clearance): CubicMetre {
  const gasket = gasketThickness && gasketBore ? pistonArea(gasketBore) * gasketThickness : 0;
  return cubicMetre(chamber + gasket + pistonArea(bore) * (deck ?? 0) + (dish ?? 0));
}

/**
 * Compression ratio, (V_d + V_c)/V_c.
 *
 * @source heywood-1988
 */
export function compressionRatio(swept: CubicMetre, clearance: CubicMetre): number {
  return (swept + clearance) / clearance;
}

/** Clearance volume that a compression ratio asks for, V_d/(r − 1) [m³]. */
export function clearanceForRatio(swept: CubicMetre, ratio: number): CubicMetre {
  return cubicMetre(swept / (ratio - 1));
}

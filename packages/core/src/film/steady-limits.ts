import {
  type Kelvin,
  kelvin,
  type Metre,
  type MetrePerSecond,
  metre,
  type Pascal,
  pascal,
} from '../units/si.ts';

/**
 * Trumpler's criteria for a bearing under steady load. They do not judge the film of an engine bearing, whose load
 * peaks for a few milliseconds and whose film then gets much thinner without harm.
 *
 * @source trumpler
 */
export const TRUMPLER = {
  /** 250 °F, of the film [K] */
  hottest: kelvin(((250 - 32) * 5) / 9 + 273.15),
  /** 300 psi, load over L D when starting [Pa] */
  startPressure: pascal((300 * 4.4482216152605) / 0.0254 ** 2),
  /** On the load. */
  designFactor: 2,
} as const;

/**
 * Least film under steady load.
 *
 *     h0 ≥ 0.00020 in + 0.00004 d
 *
 * @source trumpler
 */
export const trumplerFilm = (diameter: Metre): Metre => metre(0.0002 * 0.0254 + 0.00004 * diameter);

/**
 * Guide value of the relative clearance of machine bearings: diametral clearance over diameter.
 *
 *     ψ = 0.8e-3 v^¼, v in m/s
 *
 * Engines are built tighter, 0.75e-3 to 1.0e-3.
 *
 * @source vdi-2204
 */
export const guideRelativeClearance = (speed: MetrePerSecond): number => 0.8e-3 * speed ** 0.25;

/** So = F ψ²/(D B η ω) of ISO 7902, from S. @source iso-7902-1 */
export const isoSommerfeld = (sommerfeld: number): number => 1 / (2 * Math.PI * sommerfeld);

/**
 * How much warmer oil leaves a bearing than it came, when all heat of friction leaves with it and the side flow
 * carries off half of its rise.
 *
 *     Δt = (4 π P/ρc) (r f/c)/[(Q/rcNL) (1 − ½ Qs/Q)]
 *
 * @param pressure  P = W/(L D) [Pa]
 * @param heat      ρ c, by volume [J/(m³·K)]
 * @returns         [K]
 * @source shigley-12-15
 */
export const selfContainedRise = (
  pressure: Pascal,
  friction: number,
  flow: number,
  sideRatio: number,
  heat: number,
): Kelvin => kelvin((((4 * Math.PI * pressure) / heat) * friction) / (flow * (1 - sideRatio / 2)));

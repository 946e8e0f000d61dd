import { type Metre, type PascalSecond, type RadianPerSecond, type Watt, watt } from '../units/si.ts';

/** ρ c of oil, by volume [J/(m³·K)]. Handbooks differ: 1.5e6 is printed too, which makes a film 16 % warmer. @source film-heat */
export const OIL_HEAT = 1.8e6;

/**
 * Heat that the film of a concentric journal makes.
 *
 *     P = 2 π μ R³ L ω²/c
 *
 * @param radius     R of the journal [m]
 * @param length     L of film, all lands together [m]
 * @param clearance  c, radial [m]
 * @param viscosity  μ of the film [Pa·s]
 * @param speed      ω of the journal against its shell [rad/s]
 * @source petroff
 */
export const petroffPower = (
  radius: Metre,
  length: Metre,
  clearance: Metre,
  viscosity: PascalSecond,
  speed: RadianPerSecond,
): Watt => watt((2 * Math.PI * viscosity * radius ** 3 * length * speed * speed) / clearance);

/**
 * How much warmer the film is than the oil fed to it: half of what the oil gains on its way through.
 *
 *     Δ = P/(2 ρc Q)
 *
 * All heat leaves with the oil; what the crank and the block carry off is left out, so the film comes out warm.
 *
 * @param power  P [W]
 * @param flow   Q through the bearing [m³/s]
 * @returns      [K]; infinite where nothing flows
 * @source film-heat
 */
export const filmRise = (power: number, flow: number): number =>
  flow > 0 ? power / (2 * OIL_HEAT * flow) : power > 0 ? Number.POSITIVE_INFINITY : 0;

import { type Metre, type NewtonMetre, newtonMetre, type Radian } from '../units/si.ts';

/**
 * What to set a torque wrench to when an adapter shifts its square: T L/(L + E cos θ) [N·m].
 * The moment about the fastener is the hand's force times its distance along the handle, so only the part of the
 * adapter parallel to the handle counts: straight ahead 0°, no correction at 90°, L − E at 180°.
 *
 * @param torque   T, wanted at the fastener [N·m]
 * @param wrench   L, from grip to square [m]
 * @param adapter  E, from square to fastener [m]
 * @param angle    θ, 0 straight ahead [rad]; L + E cos θ must be positive
 * @source torque-adapter
 */
export function wrenchSetting(
  torque: NewtonMetre,
  wrench: Metre,
  adapter: Metre,
  angle: Radian,
): NewtonMetre {
  return newtonMetre((torque * wrench) / (wrench + adapter * Math.cos(angle)));
}

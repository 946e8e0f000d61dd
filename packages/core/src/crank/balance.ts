/** Masses that hang on one crank pin [kg]; of what each rod carries, one rod's. */
export interface PinMasses {
  readonly rods: number;
  readonly bigEnd: number;
  /** Both shells of a rod. */
  readonly shells: number;
  readonly smallEnd: number;
  readonly piston: number;
  readonly pin: number;
  readonly rings: number;
  /** In the pin's drilling and on its film. */
  readonly oil: number;
}

/** What turns with a pin and what goes up and down on it [kg]. */
export interface PinLoad {
  readonly rotating: number;
  readonly reciprocating: number;
}

export const pinLoad = ({ rods, bigEnd, shells, smallEnd, piston, pin, rings, oil }: PinMasses): PinLoad => ({
  rotating: rods * (bigEnd + shells) + oil,
  reciprocating: rods * (smallEnd + piston + pin + rings),
});

/**
 * The weight to hang on a pin while a crankshaft is balanced: all that turns and a share of what goes up and down.
 *
 *     m = m_rot + f m_rec
 *
 * @param factor  f; one half is exact for the first order of a two-plane 90° V8, an in-line crank needs none
 * @returns       [kg]
 * @source        crank-balance
 */
export const bobweight = ({ rotating, reciprocating }: PinLoad, factor: number): number =>
  rotating + factor * reciprocating;

/**
 * Where a rod's weight acts, from what each end weighs with the other held level: moments about the big end.
 *
 * @returns  total [kg], and the distance from the big end [m]
 * @source   crank-balance; statics of a beam on two supports
 */
export const rodWeights = (bigEnd: number, smallEnd: number, length: number) => ({
  total: bigEnd + smallEnd,
  fromBigEnd: (smallEnd * length) / (bigEnd + smallEnd),
});

/**
 * Unbalance a rotor of a balance grade may keep: its centre of mass off the axis by e = G/Ω, so U = m G/Ω.
 *
 * @param grade  G, such as 0.0025 for G 2.5 [m/s]
 * @param speed  Ω [rad/s]
 * @returns      off the axis [m], and the unbalance [kg m]
 * @source       iso-21940-11
 */
export const permissibleUnbalance = (grade: number, mass: number, speed: number) => ({
  eccentricity: grade / speed,
  unbalance: (mass * grade) / speed,
});

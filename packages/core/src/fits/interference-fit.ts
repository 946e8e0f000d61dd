import {
  type Kelvin,
  kelvin,
  type Metre,
  type Newton,
  type NewtonMetre,
  newton,
  newtonMetre,
  type Pascal,
  type PerKelvin,
  pascal,
} from '../units/si.ts';

/** A ring pressed on a shaft. Diameters in metres, moduli in pascals. */
export interface Press {
  /** d, the common diameter. */
  readonly bore: Metre;
  /** δ, of the diameters, before assembly. */
  readonly interference: Metre;
  readonly hubOutside: Metre;
  /** 0 for a solid shaft. */
  readonly shaftBore: Metre;
  readonly hub: Elastic;
  readonly shaft: Elastic;
}

interface Elastic {
  readonly modulus: Pascal;
  readonly poisson: number;
}

/** (D² + d²)/(D² − d²): hoop stress at the nearer face of a ring over its pressure. */
const hoopFactor = (outside: number, inside: number) =>
  (outside ** 2 + inside ** 2) / (outside ** 2 - inside ** 2);

/**
 * Pressure between ring and shaft by Lamé, elastic and smooth:
 * p = δ/{d/E_o [(D² + d²)/(D² − d²) + ν_o] + d/E_i [(d² + b²)/(d² − b²) − ν_i]} [Pa].
 *
 * @source shigley-fits
 */
export function pressPressure({ bore, interference, hubOutside, shaftBore, hub, shaft }: Press): Pascal {
  const ring = (bore / hub.modulus) * (hoopFactor(hubOutside, bore) + hub.poisson);
  const core = (bore / shaft.modulus) * (hoopFactor(bore, shaftBore) - shaft.poisson);
  return pascal(interference / (ring + core));
}

/** Hoop stress at the bore of the ring, pulling [Pa]. */
export function hubHoopStress(pressure: Pascal, { bore, hubOutside }: Press): Pascal {
  return pascal(pressure * hoopFactor(hubOutside, bore));
}

/** Hoop stress at the outside of the shaft, pushing and so negative [Pa]. */
export function shaftHoopStress(pressure: Pascal, { bore, shaftBore }: Press): Pascal {
  return pascal(-pressure * hoopFactor(bore, shaftBore));
}

/** Axial force that slides the fit, μ p π d L: what the press must give at the end of its stroke [N]. */
export function slidingForce(pressure: Pascal, bore: Metre, length: Metre, friction: number): Newton {
  return newton(friction * pressure * Math.PI * bore * length);
}

/** Torque the fit holds, the sliding force at the common radius [N·m]. */
export function holdingTorque(force: Newton, bore: Metre): NewtonMetre {
  return newtonMetre((force * bore) / 2);
}

/** Warming of the ring for it to drop on: ΔT = (δ + clearance)/(α d) [K]. */
export function shrinkTemperature(
  interference: Metre,
  clearance: Metre,
  bore: Metre,
  expansion: PerKelvin,
): Kelvin {
  return kelvin((interference + clearance) / (expansion * bore));
}

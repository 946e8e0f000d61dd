import {
  type KilogramPerCubicMetre,
  type Metre,
  metre,
  type Newton,
  type NewtonPerMetre,
  newton,
  newtonPerMetre,
  type Pascal,
  pascal,
} from '../units/si.ts';

/** C = D/d, mean coil diameter over wire diameter. */
export const springIndex = (wire: Metre, mean: Metre): number => mean / wire;

/** Where the stress factors hold, and where springs are wound at all. */
export const SPRING_INDEX_RANGE = { min: 3, max: 16 } as const;

/**
 * Rate of a helical compression spring of round wire.
 *
 *     k = G d⁴ / (8 D³ N)
 *
 * @param wire     d [m]
 * @param mean     D, mean coil diameter [m]
 * @param active   N, coils that work
 * @param modulus  G [Pa]
 * @returns        k [N/m]
 * @valid          SPRING_INDEX_RANGE; 1 % of the wire is 4 % of the rate
 * @source         shigley-springs
 */
export const coilSpringRate = (wire: Metre, mean: Metre, active: number, modulus: Pascal): NewtonPerMetre =>
  newtonPerMetre((modulus * wire ** 4) / (8 * mean ** 3 * active));

/** Coils that must work for a rate: the same formula turned round. */
export const activeCoilsForRate = (wire: Metre, mean: Metre, modulus: Pascal, rate: NewtonPerMetre): number =>
  (modulus * wire ** 4) / (8 * mean ** 3 * rate);

/** Stress factor of Wahl: (4C − 1)/(4C − 4) + 0.615/C. @source shigley-springs */
export const wahlFactor = (c: number): number => (4 * c - 1) / (4 * c - 4) + 0.615 / c;

/** Stress factor of Bergsträsser: (4C + 2)/(4C − 3). @source shigley-springs */
export const bergstraesserFactor = (c: number): number => (4 * c + 2) / (4 * c - 3);

/**
 * Greatest shear stress in the wire.
 *
 *     τ = K 8 F D / (π d³)
 *
 * @param factor  K, of Wahl or Bergsträsser
 * @source        shigley-springs
 */
export const coilShearStress = (wire: Metre, mean: Metre, load: Newton, factor: number): Pascal =>
  pascal((factor * 8 * load * mean) / (Math.PI * wire ** 3));

/** Load at which the wire reaches a shear stress: the same formula turned round. */
export const loadAtShearStress = (wire: Metre, mean: Metre, stress: Pascal, factor: number): Newton =>
  newton((Math.PI * wire ** 3 * stress) / (8 * factor * mean));

/** Wire diameter for a load at an index: d = √(8 K F C/(π τ)). */
export const wireForLoad = (load: Newton, index: number, stress: Pascal, factor: number): Metre =>
  metre(Math.sqrt((8 * factor * load * index) / (Math.PI * stress)));

export const SPRING_ENDS = ['plain', 'plain ground', 'squared', 'squared and ground'] as const;
export type SpringEnds = (typeof SPRING_ENDS)[number];

/** Dead coils, and coils counted into the solid length besides the total. @source shigley-springs table 10-1 */
const ENDS: Readonly<Record<SpringEnds, { readonly dead: number; readonly solidExtra: number }>> = {
  plain: { dead: 0, solidExtra: 1 },
  'plain ground': { dead: 1, solidExtra: 0 },
  squared: { dead: 2, solidExtra: 1 },
  'squared and ground': { dead: 2, solidExtra: 0 },
};

export const activeCoils = (total: number, ends: SpringEnds): number => total - ENDS[ends].dead;
export const totalCoils = (active: number, ends: SpringEnds): number => active + ENDS[ends].dead;

/** Length with every coil touching: (N_t + extra) d. @source shigley-springs */
export const solidLength = (wire: Metre, total: number, ends: SpringEnds): Metre =>
  metre((total + ENDS[ends].solidExtra) * wire);

/**
 * Free length under which a steel spring cannot buckle.
 *
 *     L0 < 2.63 D/α     α = 0.5 between flat parallel plates, 1 hinged, 2 with one end free
 *
 * @source shigley-springs
 */
export const bucklingFreeLength = (mean: Metre, support: number): Metre => metre((2.63 * mean) / support);

/** Mass of the coils that work: ρ (π d²/4) (π D N) [kg]. @source shigley-springs */
export const activeMass = (
  wire: Metre,
  mean: Metre,
  active: number,
  density: KilogramPerCubicMetre,
): number => density * ((Math.PI * wire * wire) / 4) * Math.PI * mean * active;

/** First surge frequency with both ends held: f = ½ √(k/m) [Hz]. @source shigley-springs */
export const surgeFrequency = (rate: NewtonPerMetre, mass: number): number => 0.5 * Math.sqrt(rate / mass);

/** Tensile strength of spring wire: A/d^m, A in Pa·m^m. @source shigley-springs */
export const wireStrength = (wire: Metre, a: number, m: number): Pascal => pascal(a / wire ** m);

/** How two springs, one inside the other, share a load; the longer one takes it alone at first. */
export function nestedLoads(
  load: Newton,
  longer: NewtonPerMetre,
  shorter: NewtonPerMetre,
  difference: Metre,
): { readonly longer: Newton; readonly shorter: Newton } {
  const alone = longer * difference;
  if (load <= alone) return { longer: load, shorter: newton(0) };
  const together = (load - alone) / (longer + shorter);
  return { longer: newton(longer * (difference + together)), shorter: newton(shorter * together) };
}

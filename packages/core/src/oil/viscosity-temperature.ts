import {
  type Celsius,
  type PascalSecond,
  pascalSecond,
  type SquareMetrePerSecond,
  squareMetrePerSecond,
} from '../units/si.ts';

const MM2 = 1e-6;

/** Where the two-point line is well tested; outside it the number comes with a caution. */
export const D341_TEMPERATURES = { min: 0, max: 150 } as const;

/** The straight line log log Z = A − B log T through two measured viscosities. */
export interface ViscosityLine {
  readonly a: number;
  readonly b: number;
}

/**
 * Z of a kinematic viscosity, in mm²/s as the standard's constants demand.
 *
 *     Z = ν + 0.7                                            from 2 mm²/s
 *     Z = ν + 0.7 + exp(−1.47 − 1.84 ν − 0.51 ν²)            below
 *
 * @param viscosity ν [m²/s]
 * @returns         Z [mm²/s]
 * @valid           ν ≥ 0.21 mm²/s
 * @source          astm-d341
 */
export function zOfViscosity(viscosity: SquareMetrePerSecond): number {
  const v = viscosity / MM2;
  return v > 2 ? v + 0.7 : v + 0.7 + Math.exp(-1.47 - 1.84 * v - 0.51 * v * v);
}

/**
 * Kinematic viscosity of a Z, by the approximate inverse that the standard prints.
 *
 *     ν = (Z − 0.7) − exp(−0.7487 − 3.295 x + 0.6119 x² − 0.3193 x³),  x = Z − 0.7
 *
 * @param z  [mm²/s]
 * @returns  ν [m²/s]
 * @source   astm-d341
 */
export function viscosityOfZ(z: number): SquareMetrePerSecond {
  const x = z - 0.7;
  // Above 2 mm²/s the standard drops the term; there it is below 1e-4 of the value.
  const small = x > 2 ? 0 : Math.exp(-0.7487 - 3.295 * x + 0.6119 * x * x - 0.3193 * x ** 3);
  return squareMetrePerSecond((x - small) * MM2);
}

/**
 * The line through two measured points.
 *
 *     w = log log Z,  B = (w1 − w2)/(log T2 − log T1),  A = w1 + B log T1
 *
 * @param v1,v2         ν at the two temperatures [m²/s]
 * @param t1,t2         [°C]
 * @param kelvinOffset  273.15; older printed worksheets add 273
 * @source              astm-d341
 */
export function viscosityLine(
  v1: SquareMetrePerSecond,
  t1: Celsius,
  v2: SquareMetrePerSecond,
  t2: Celsius,
  kelvinOffset = 273.15,
): ViscosityLine {
  const w1 = Math.log10(Math.log10(zOfViscosity(v1)));
  const w2 = Math.log10(Math.log10(zOfViscosity(v2)));
  const l1 = Math.log10(t1 + kelvinOffset);
  const l2 = Math.log10(t2 + kelvinOffset);
  const b = (w1 - w2) / (l2 - l1);
  return { a: w1 + b * l1, b };
}

/**
 * Kinematic viscosity on the line at a temperature.
 *
 * @param line         A, B
 * @param temperature  [°C]
 * @returns            ν [m²/s]
 * @valid              D341_TEMPERATURES; a Newtonian liquid, so an upper bound for a sheared multigrade oil
 * @source             astm-d341
 */
export function viscosityOnLine(
  line: ViscosityLine,
  temperature: Celsius,
  kelvinOffset = 273.15,
): SquareMetrePerSecond {
  return viscosityOfZ(10 ** (10 ** (line.a - line.b * Math.log10(temperature + kelvinOffset))));
}

/**
 * Dynamic viscosity by a three-constant exponential.
 *
 *     μ = a exp(b / (t + c))
 *
 * @param a            [Pa·s]
 * @param b,c          [K]
 * @param temperature  t [°C]
 * @source             vogel
 */
export function vogelViscosity(a: number, b: number, c: number, temperature: Celsius): PascalSecond {
  return pascalSecond(a * Math.exp(b / (temperature + c)));
}

/**
 * Typical dynamic viscosity of a straight grade.
 *
 *     μ = μ0 exp(b / (T + 95)),  T in °F
 *
 * @param mu0          [Pa·s]
 * @param b            [°F]
 * @param temperature  [°C]
 * @source             seireg-dandage
 */
export function typicalGradeViscosity(mu0: PascalSecond, b: number, temperature: Celsius): PascalSecond {
  return pascalSecond(mu0 * Math.exp(b / (temperature * 1.8 + 32 + 95)));
}

import { type Kelvin, type Pascal, type PascalSecond, pascal, pascalSecond } from '../units/si.ts';

export const ATMOSPHERE: Pascal = pascal(101_325);

/** Standard gravity [m/s²]. */
export const GRAVITY = 9.80665;

/** Where the formula follows the tables to within 1 % [K]. */
export const AIR_VISCOSITY_RANGE = { from: 200, to: 600 } as const;

/**
 * Dynamic viscosity of air.
 *
 *     μ = 1.716e-5 (T/273.15)^1.5 (273.15 + 110.4)/(T + 110.4)
 *
 * @param temperature  T [K]
 * @valid   AIR_VISCOSITY_RANGE
 * @source  sutherland
 */
export const airViscosity = (temperature: Kelvin): PascalSecond =>
  pascalSecond(1.716e-5 * (temperature / 273.15) ** 1.5 * ((273.15 + 110.4) / (temperature + 110.4)));

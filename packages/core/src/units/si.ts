/**
 * Branded SI numbers: inside the program a length is metres and nothing else.
 * A brand costs nothing at run time; it stops a clearance in thou from reaching a formula in metres.
 */
declare const unit: unique symbol;

/** A number in the SI unit `U`, written as UCUM writes it. */
export type Si<U extends string> = number & { readonly [unit]: U };

const brand =
  <U extends string>() =>
  (value: number): Si<U> =>
    value as Si<U>;

export type Metre = Si<'m'>;
export const metre = brand<'m'>();
export type SquareMetre = Si<'m2'>;
export const squareMetre = brand<'m2'>();
export type CubicMetre = Si<'m3'>;
export const cubicMetre = brand<'m3'>();
export type Radian = Si<'rad'>;
export const radian = brand<'rad'>();
export type Second = Si<'s'>;
export const second = brand<'s'>();
export type MetrePerSecond = Si<'m/s'>;
export const metrePerSecond = brand<'m/s'>();
export type MetrePerSecondSquared = Si<'m/s2'>;
export const metrePerSecondSquared = brand<'m/s2'>();
export type RadianPerSecond = Si<'rad/s'>;
export const radianPerSecond = brand<'rad/s'>();
export type Kilogram = Si<'kg'>;
export const kilogram = brand<'kg'>();
export type Newton = Si<'N'>;
export const newton = brand<'N'>();
export type NewtonMetre = Si<'N.m'>;
export const newtonMetre = brand<'N.m'>();
export type NewtonPerMetre = Si<'N/m'>;
export const newtonPerMetre = brand<'N/m'>();
export type Pascal = Si<'Pa'>;
export const pascal = brand<'Pa'>();
export type PascalSecond = Si<'Pa.s'>;
export const pascalSecond = brand<'Pa.s'>();
export type SquareMetrePerSecond = Si<'m2/s'>;
export const squareMetrePerSecond = brand<'m2/s'>();
export type CubicMetrePerSecond = Si<'m3/s'>;
export const cubicMetrePerSecond = brand<'m3/s'>();
export type KilogramPerCubicMetre = Si<'kg/m3'>;
export const kilogramPerCubicMetre = brand<'kg/m3'>();
export type Kelvin = Si<'K'>;
export const kelvin = brand<'K'>();
export type Celsius = Si<'Cel'>;
export const celsius = brand<'Cel'>();
export type PerKelvin = Si<'1/K'>;
export const perKelvin = brand<'1/K'>();
export type Watt = Si<'W'>;
export const watt = brand<'W'>();

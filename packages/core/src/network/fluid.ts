import * as z from 'zod';
import { densityAt } from '../oil/density.ts';
import { viscosityLine, viscosityOnLine, vogelViscosity } from '../oil/viscosity-temperature.ts';
import { celsius, kilogramPerCubicMetre, squareMetrePerSecond } from '../units/si.ts';
import type { FilmOil } from './element.ts';

/** A quantity in the file: text with its unit, or in JSON a bare number in SI. */
export const written = (doc: string, unit: string) =>
  z.union([z.number(), z.string()]).describe(`${doc} [${unit}]`);

const density15 = written('density at 15 °C', 'kg/m3');
const byTable = {
  density15,
  density_slope: z
    .number()
    .min(0)
    .optional()
    .describe('density lost per kelvin [kg/(m3.K)]; without it or the coefficient, API MPMS 11.1'),
  density_coefficient: z.number().min(0).optional().describe('share of the density lost per kelvin [1/K]'),
};

export const fluidSchema = z
  .union([
    z.strictObject({
      kv40: written('kinematic viscosity at 40 °C', 'm2/s'),
      kv100: written('kinematic viscosity at 100 °C', 'm2/s'),
      ...byTable,
    }),
    z.strictObject({
      vogel: z
        .strictObject({
          a: z.number().positive().describe('[Pa.s]'),
          b: z.number().positive().describe('[K]'),
          c: z.number().describe('[K], added to the temperature in °C'),
        })
        .describe('μ = a exp(b/(t + c)), t in °C'),
      ...byTable,
    }),
    z.strictObject({
      dynamic_viscosity: written('one viscosity, whatever the temperature', 'Pa.s'),
      density: written('one density', 'kg/m3'),
    }),
  ])
  .describe('the oil: two viscosities on the ASTM D341 line, a Vogel curve, or one viscosity');

export type FluidInput = z.infer<typeof fluidSchema>;

/** The oil with its numbers in SI. */
export type Fluid =
  | { readonly form: 'line'; readonly kv40: number; readonly kv100: number; readonly density: DensityLaw }
  | {
      readonly form: 'vogel';
      readonly a: number;
      readonly b: number;
      readonly c: number;
      readonly density: DensityLaw;
    }
  | { readonly form: 'constant'; readonly viscosity: number; readonly density: DensityLaw };

interface DensityLaw {
  readonly at15: number;
  /** kg/(m³ K); undefined for the API tables. */
  readonly slope?: number;
}

const densityOf = (law: DensityLaw, t: number): number =>
  law.slope === undefined
    ? densityAt(kilogramPerCubicMetre(law.at15), celsius(t))
    : law.at15 - law.slope * (t - 15);

/** Viscosity and density of the oil at a temperature in °C. */
export function filmOil(fluid: Fluid, t: number): FilmOil {
  const density = densityOf(fluid.density, t);
  switch (fluid.form) {
    case 'line': {
      const line = viscosityLine(
        squareMetrePerSecond(fluid.kv40),
        celsius(40),
        squareMetrePerSecond(fluid.kv100),
        celsius(100),
      );
      return { viscosity: viscosityOnLine(line, celsius(t)) * density, density };
    }
    case 'vogel':
      return { viscosity: vogelViscosity(fluid.a, fluid.b, fluid.c, celsius(t)), density };
    case 'constant':
      return { viscosity: fluid.viscosity, density };
  }
}

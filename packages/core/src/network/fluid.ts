import * as z from 'zod';
import type { Issue } from '../issue.ts';
import { densityAt } from '../oil/density.ts';
import { viscosityLine, viscosityOnLine, vogelViscosity } from '../oil/viscosity-temperature.ts';
import type { QuantityKind } from '../units/kinds.ts';
import { quantitySchema } from '../units/quantity-in.ts';
import { type Bounds, gotInWords } from '../units/read-quantity.ts';
import { celsius, kilogramPerCubicMetre, squareMetrePerSecond } from '../units/si.ts';
import type { FilmOil } from './flow-law.ts';

/** A quantity as the file says it: text with its unit, or a bare number in SI; read once its law is known. */
export const written = (description: string, kind: QuantityKind, bounds: Bounds = { above: 0 }) =>
  z.union([z.string(), z.number()]).meta({ description, ...quantitySchema(kind, bounds) });

const density15 = written('density at 15 °C', 'density');
const byTable = {
  density15,
  density_slope: z
    .number()
    .min(0)
    .optional()
    .describe('density lost per kelvin [kg/(m3.K)]; without it or the coefficient, API MPMS 11.1'),
  density_coefficient: z.number().min(0).optional().describe('share of the density lost per kelvin [1/K]'),
};

const forms = z
  .union([
    z.strictObject({
      kv40: written('kinematic viscosity at 40 °C', 'kinematic-viscosity'),
      kv100: written('kinematic viscosity at 100 °C', 'kinematic-viscosity'),
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
      dynamic_viscosity: written('one viscosity, whatever the temperature', 'dynamic-viscosity'),
      density: written('one density', 'density'),
    }),
  ])
  .describe('the oil: two viscosities on the ASTM D341 line, a Vogel curve, or one viscosity');

export type FluidInput = z.infer<typeof forms>;

const FORMS_IN_WORDS =
  'kv40, kv100 and density15; or vogel {a, b, c} and density15; or dynamic_viscosity and density';

const { $schema: _dialect, ...formsSchema } = z.toJSONSchema(forms, { io: 'input' });

/** The oil, with one issue that names the three ways instead of one for every way it is not. */
export const fluidSchema = z
  .unknown()
  .meta(formsSchema)
  .transform((raw, context): FluidInput => {
    const parsed = forms.safeParse(raw);
    if (parsed.success) return parsed.data;
    const issue: Issue = {
      code: 'network/fluid',
      at: '',
      got:
        raw !== null && typeof raw === 'object' ? gotInWords(Object.keys(raw).join(', ')) : gotInWords(raw),
      wanted: FORMS_IN_WORDS,
      message: `The oil is given in one of three ways: ${FORMS_IN_WORDS}. Give one of them whole, and nothing else.`,
    };
    context.issues.push({ code: 'custom', message: issue.message, input: raw, params: { issue } });
    return z.NEVER;
  });

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

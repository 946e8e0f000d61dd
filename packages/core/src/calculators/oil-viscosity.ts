import { calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, quantity } from '../catalogue/field.ts';
import type { Issue } from '../issue.ts';
import { densityAt } from '../oil/density.ts';
import { D341_TEMPERATURES, viscosityLine, viscosityOnLine } from '../oil/viscosity-temperature.ts';
import { celsius, kilogramPerCubicMetre, squareMetrePerSecond } from '../units/si.ts';

const ZERO_CELSIUS = 273.15;
/** The standard's low-viscosity form ends here [m²/s]. */
const LEAST = 0.21e-6;

/** Two viscosities the wrong way round, or equal: no oil does that. */
export function viscosityOrder(kv40: number, kv100: number): Issue[] {
  return kv40 > kv100
    ? []
    : [
        {
          code: 'oil/viscosity-order',
          at: 'kv100',
          got: `${kv100} m2/s at 100 °C, ${kv40} m2/s at 40 °C`,
          wanted: 'kv100 less than kv40',
          message: 'Oil is thinner at 100 °C than at 40 °C. Check which figure is which.',
        },
      ];
}

export const OIL_VISCOSITY = calculator({
  name: 'oil-viscosity',
  sentence: 'How thick an oil is at a temperature, from its two viscosities on the sheet.',
  formula: [
    'log log(ν + 0.7) = A − B log T through (40 °C, kv40) and (100 °C, kv100), ν in mm²/s, T in K',
    'ρ = ρ15 exp[−α Δt (1 + 0.8 α Δt)], α = 0.6278/ρ15',
    'μ = ν ρ',
  ],
  sources: ['astm-d341', 'api-mpms-11-1'],
  input: {
    kv40: quantity('kinematic-viscosity', 'kinematic viscosity at 40 °C', { min: LEAST }),
    kv100: quantity('kinematic-viscosity', 'kinematic viscosity at 100 °C', { min: LEAST }),
    temperature: quantity('temperature', 'of the oil', { min: 223.15, max: 573.15 }),
    density15: defaultedQuantity('density', 'density at 15 °C', 880, { min: 500, max: 1500 }),
  },
  output: {
    kinematic_viscosity: { kind: 'kinematic-viscosity', doc: 'ν at the temperature' },
    density: { kind: 'density', doc: 'ρ at the temperature' },
    dynamic_viscosity: { kind: 'dynamic-viscosity', doc: 'μ at the temperature' },
  },
  range: '0 to 150 °C, a liquid that shears evenly; a multigrade oil is thinner than this in a bearing',
  example: { kv40: '93 mm2/s', kv100: '10.8 mm2/s', temperature: '93 degC' },
  compute: (input) => {
    const order = viscosityOrder(input.kv40, input.kv100);
    if (order.length > 0) return { issues: order };
    const t = celsius(input.temperature - ZERO_CELSIUS);
    const line = viscosityLine(
      squareMetrePerSecond(input.kv40),
      celsius(40),
      squareMetrePerSecond(input.kv100),
      celsius(100),
    );
    const kinematic = viscosityOnLine(line, t);
    if (!(kinematic >= LEAST && Number.isFinite(kinematic)))
      return {
        issues: [
          {
            code: 'oil/off-the-line',
            at: 'temperature',
            got: `${t} °C`,
            wanted: 'a temperature at which the line gives 0.21 mm²/s or more',
            message:
              'The line through these two viscosities does not reach this temperature. Bring the temperature nearer to 40 to 100 °C, or check the viscosities.',
          },
        ],
      };
    const density = densityAt(kilogramPerCubicMetre(input.density15), t);
    const outside = t < D341_TEMPERATURES.min || t > D341_TEMPERATURES.max;
    return {
      results: {
        kinematic_viscosity: kinematic,
        density,
        dynamic_viscosity: kinematic * density,
        density15: input.density15,
      },
      cautions: outside
        ? [
            {
              code: 'oil/outside-line',
              message: `${t.toFixed(0)} °C is outside ${D341_TEMPERATURES.min} to ${D341_TEMPERATURES.max} °C, where a line through two points is well tested.`,
            },
          ]
        : [],
    };
  },
});

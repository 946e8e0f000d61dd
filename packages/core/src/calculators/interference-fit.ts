import { calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, quantity } from '../catalogue/field.ts';
import {
  holdingTorque,
  hubHoopStress,
  pressPressure,
  shaftHoopStress,
  slidingForce,
} from '../fits/interference-fit.ts';
import type { Issue } from '../issue.ts';
import { metre, pascal } from '../units/si.ts';

/** Mild steel yields at about this strain; past it the elastic answer is too high. */
const ELASTIC_STRAIN = 0.002;

export const INTERFERENCE_FIT = calculator({
  name: 'interference-fit',
  sentence: 'Pressure, hoop stress, holding torque and press force of a ring pressed on a shaft.',
  formula: [
    'p = δ/{d/E_o [(D² + d²)/(D² − d²) + ν_o] + d/E_i [(d² + b²)/(d² − b²) − ν_i]}',
    'hoop = p (D² + d²)/(D² − d²), force = μ p π d L, torque = force · d/2',
  ],
  sources: ['shigley-fits'],
  input: {
    bore: quantity('length', 'd, the common diameter'),
    interference: quantity('length', 'δ, of the diameters'),
    length: quantity('length', 'L, of contact'),
    hub_outside_diameter: quantity('length', 'D, of the ring'),
    hub_modulus: quantity('pressure', 'E_o, elastic modulus of the ring'),
    hub_poisson_ratio: quantity('ratio', 'ν_o', { min: 0, below: 0.5 }),
    shaft_modulus: quantity('pressure', 'E_i, elastic modulus of the shaft'),
    shaft_poisson_ratio: quantity('ratio', 'ν_i', { min: 0, below: 0.5 }),
    friction: quantity('ratio', 'μ, of the fit', { above: 0, max: 1 }),
    shaft_bore: defaultedQuantity('length', 'b, of a hollow shaft; 0 is solid', 0, { min: 0 }),
  },
  output: {
    pressure: { kind: 'pressure', doc: 'p, between the parts' },
    hub_hoop_stress: { kind: 'pressure', doc: 'At the bore of the ring, pulling' },
    shaft_hoop_stress: { kind: 'pressure', doc: 'At the outside of the shaft, negative is pushing' },
    holding_torque: { kind: 'torque', doc: 'That the fit holds' },
    assembly_force: { kind: 'force', doc: 'At the end of the press stroke' },
    shaft_bore: { kind: 'length', doc: 'b, used' },
  },
  range:
    'elastic, smooth surfaces, both parts equally long; roughness takes several micrometres off the interference',
  example: {
    bore: '50 mm',
    interference: '40 um',
    length: '40 mm',
    hub_outside_diameter: '100 mm',
    hub_modulus: '100 GPa',
    hub_poisson_ratio: 0.211,
    shaft_modulus: '207 GPa',
    shaft_poisson_ratio: 0.292,
    friction: 0.12,
  },
  compute: (input) => {
    const issues: Issue[] = [];
    const wrong = (at: string, got: number, wanted: string) =>
      issues.push({
        code: 'interference-fit/sizes',
        at,
        got: `${got} m`,
        wanted,
        message: `The sizes do not nest: ${at} must be ${wanted}. Correct it or the bore.`,
      });
    if (input.hub_outside_diameter <= input.bore) {
      wrong('hub_outside_diameter', input.hub_outside_diameter, `over the bore, ${input.bore} m`);
    }
    if (input.shaft_bore >= input.bore)
      wrong('shaft_bore', input.shaft_bore, `under the bore, ${input.bore} m`);
    if (input.interference >= input.bore / 10) {
      wrong('interference', input.interference, `far under the bore, ${input.bore} m`);
    }
    if (issues.length > 0) return { issues };
    const press = {
      bore: metre(input.bore),
      interference: metre(input.interference),
      hubOutside: metre(input.hub_outside_diameter),
      shaftBore: metre(input.shaft_bore),
      hub: { modulus: pascal(input.hub_modulus), poisson: input.hub_poisson_ratio },
      shaft: { modulus: pascal(input.shaft_modulus), poisson: input.shaft_poisson_ratio },
    };
    const pressure = pressPressure(press);
    const force = slidingForce(pressure, press.bore, metre(input.length), input.friction);
    return {
      results: {
        pressure,
        hub_hoop_stress: hubHoopStress(pressure, press),
        shaft_hoop_stress: shaftHoopStress(pressure, press),
        holding_torque: holdingTorque(force, press.bore),
        assembly_force: force,
        shaft_bore: input.shaft_bore,
      },
      cautions:
        input.interference / input.bore > ELASTIC_STRAIN
          ? [
              {
                code: 'interference-fit/past-elastic',
                message:
                  'The interference is over 0.2 % of the bore: most metals yield, and the figures come out too high.',
              },
            ]
          : [],
    };
  },
});

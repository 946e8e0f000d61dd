import { calculator } from '../catalogue/calculator.ts';
import { quantity } from '../catalogue/field.ts';
import { annulusLeak } from '../oil/bearing-feed.ts';
import { metre, pascal, pascalSecond } from '../units/si.ts';

export const ANNULUS_LEAK = calculator({
  name: 'annulus-leak',
  sentence: 'Leak along the gap around a plunger, lifter or stem.',
  formula: ['Q = π D c³ Δp (1 + 1.5 ε²)/(12 μ l)'],
  sources: ['annular-gap'],
  input: {
    diameter: quantity('length', 'D, mean of the gap'),
    length: quantity('length', 'l, along the flow'),
    radial_clearance: quantity('length', 'c, half of the diametral clearance'),
    eccentricity_ratio: quantity('ratio', 'ε, 0 concentric, 1 touching', { min: 0, max: 1 }),
    pressure_difference: quantity('pressure', 'Δp over the length', { min: 0 }),
    dynamic_viscosity: quantity('dynamic-viscosity', 'μ, in the gap'),
  },
  output: { flow: { kind: 'flow', doc: 'by pressure alone; nothing moves' } },
  range: 'laminar, gap thin against the diameter; touching lets through 2.5 times what concentric does',
  example: {
    diameter: '25 mm',
    length: '15 mm',
    radial_clearance: '5 um',
    eccentricity_ratio: 0,
    pressure_difference: '19 MPa',
    dynamic_viscosity: '18 mPa.s',
  },
  compute: (i) => ({
    results: {
      flow: annulusLeak(
        metre(i.diameter),
        metre(i.length),
        metre(i.radial_clearance),
        i.eccentricity_ratio,
        pascal(i.pressure_difference),
        pascalSecond(i.dynamic_viscosity),
      ),
    },
  }),
});

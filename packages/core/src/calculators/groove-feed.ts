import { calculator } from '../catalogue/calculator.ts';
import { quantity } from '../catalogue/field.ts';
import { grooveFeed } from '../oil/bearing-feed.ts';
import { metre, pascal, pascalSecond } from '../units/si.ts';

export const GROOVE_FEED = calculator({
  name: 'groove-feed',
  sentence: 'Oil that a plain bearing with a full circumferential groove lets through.',
  formula: ["Q = π D c³ p (1 + 1.5 ε²)/(6 μ l'), both lands"],
  sources: ['shigley-12-22'],
  input: {
    diameter: quantity('length', 'D, of the journal'),
    land_length: quantity('length', "l', of one of the two lands"),
    radial_clearance: quantity('length', 'c, half of the diametral clearance'),
    eccentricity_ratio: quantity('ratio', 'ε, 0 concentric', { min: 0, below: 1 }),
    supply_pressure: quantity('pressure', 'p in the groove, over the surroundings', { min: 0 }),
    dynamic_viscosity: quantity('dynamic-viscosity', 'μ, of the film'),
  },
  output: { flow: { kind: 'flow', doc: 'both lands together' } },
  range: 'laminar film, groove at one pressure all round, journal parallel to the bore',
  example: {
    diameter: '2.5 in',
    land_length: '.6 in',
    radial_clearance: '1 thou',
    eccentricity_ratio: 0.6,
    supply_pressure: '30 psi',
    dynamic_viscosity: '7.5 mPa.s',
  },
  compute: (i) => ({
    results: {
      flow: grooveFeed(
        metre(i.diameter),
        metre(i.land_length),
        metre(i.radial_clearance),
        i.eccentricity_ratio,
        pascal(i.supply_pressure),
        pascalSecond(i.dynamic_viscosity),
      ),
    },
  }),
});

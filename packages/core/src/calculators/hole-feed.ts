import { calculator } from '../catalogue/calculator.ts';
import { defaultedChoice, quantity } from '../catalogue/field.ts';
import { type HolePlace, holeFeed } from '../oil/bearing-feed.ts';
import { metre, pascal, pascalSecond } from '../units/si.ts';

/** Hole over bearing length up to which the factor of the standard is drawn. */
const WIDEST_HOLE = 0.5;

export const HOLE_FEED = calculator({
  name: 'hole-feed',
  sentence: 'Oil that the supply pressure drives through a bearing fed by one hole.',
  formula: [
    'Q = 8 c³ p/μ · (π/48) f/[ln(B/d) q],  q = 1.204 + 0.368 x − 1.046 x² + 1.942 x³, x = d/B',
    'f = (1 + ε)³ at the widest gap; 1 + 1.5 ε², its mean over a turn, for a hole that goes round',
  ],
  sources: ['iso-7902-2'],
  input: {
    diameter: quantity('length', 'D, of the journal; it cancels out of the flow'),
    length: quantity('length', 'B, of the whole bearing'),
    hole_diameter: quantity('length', 'd, of the oil hole'),
    radial_clearance: quantity('length', 'c, half of the diametral clearance'),
    eccentricity_ratio: quantity('ratio', 'ε, 0 concentric', { min: 0, below: 1 }),
    supply_pressure: quantity('pressure', 'p at the hole, over the surroundings', { min: 0 }),
    dynamic_viscosity: quantity('dynamic-viscosity', 'μ, of the film'),
    hole: defaultedChoice(
      'where the hole lies: opposite the load, or going round with a crankpin',
      ['widest', 'rotating'],
      'widest',
    ),
  },
  output: { flow: { kind: 'flow', doc: 'by supply pressure alone, without what the journal itself drives' } },
  range: 'hole to half the bearing length; exact theory gives 6 to 11 % more, so good to about 10 %',
  example: {
    diameter: '2.125 in',
    length: '1.25 in',
    hole_diameter: '.25 in',
    radial_clearance: '.9 thou',
    eccentricity_ratio: 0.7,
    supply_pressure: '30 psi',
    dynamic_viscosity: '7.5 mPa.s',
    hole: 'rotating',
  },
  compute: (i) => {
    if (i.hole_diameter >= i.length)
      return {
        issues: [
          {
            code: 'hole-feed/hole-too-wide',
            at: 'hole_diameter',
            got: `${i.hole_diameter} m in a bearing ${i.length} m long`,
            wanted: 'a hole smaller than the bearing is long',
            message: 'The hole is as wide as the bearing is long. Check both sizes and their units.',
          },
        ],
      };
    return {
      results: {
        flow: holeFeed(
          metre(i.length),
          metre(i.hole_diameter),
          metre(i.radial_clearance),
          i.eccentricity_ratio,
          pascal(i.supply_pressure),
          pascalSecond(i.dynamic_viscosity),
          i.hole as HolePlace,
        ),
        hole: i.hole,
      },
      cautions:
        i.hole_diameter > WIDEST_HOLE * i.length
          ? [
              {
                code: 'hole-feed/wide-hole',
                message: 'The hole is over half the bearing length: the formula is stretched here.',
              },
            ]
          : [],
    };
  },
});

import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { compressionRatio } from '../geometry/cylinder.ts';
import { skimForRatio, skimForVolume, skimmedVolume } from '../geometry/skim.ts';
import { cubicMetre, metre, squareMetre } from '../units/si.ts';

const ANY = {};

export const HEAD_SKIM = calculator({
  name: 'head-skim',
  sentence: 'What a skim does to a chamber and to the compression ratio, and how deep it may still go.',
  formula: [
    'V = A d',
    'r = (V_s + V_c − V)/(V_c − V)',
    'deepest = least of: budget − taken, (chamber − least chamber)/A, (V_c − V_s/(r most − 1))/A',
  ],
  sources: ['heywood-1988'],
  input: {
    depth: quantity('length', 'd, to be taken off', { min: 0 }),
    mouth_area: quantity('area', 'A, of the chamber in the gasket face; or measured volume over depth'),
    chamber_volume: quantity('volume', 'Of one chamber now'),
    rest_volume: quantity('volume', 'Gasket, deck and dish together; below nothing for a dome', ANY),
    swept_volume: quantity('volume', 'V_s, of one cylinder'),
    greatest_ratio: optionalQuantity('ratio', 'r most', { above: 1 }),
    least_chamber: optionalQuantity('volume', 'Least chamber allowed'),
    budget: optionalQuantity('length', 'Most that may come off the head in its life', { min: 0 }),
    taken: optionalQuantity('length', 'Taken off so far', { min: 0 }),
  },
  together: [['budget', 'taken']],
  output: {
    volume: { kind: 'volume', doc: 'V, off the chamber' },
    chamber_after: { kind: 'volume', doc: 'Chamber after the skim' },
    ratio_now: { kind: 'ratio', doc: 'Compression ratio now' },
    ratio_after: { kind: 'ratio', doc: 'After the skim' },
    deepest: {
      kind: 'length',
      doc: 'That may still come off; below nothing: too much is gone',
      optional: true,
    },
    decided_by: { kind: 'value', doc: 'What leaves least', optional: true },
  },
  range:
    'walls of the chamber that stand square to the face; where they slope, give volume over depth as measured',
  example: {
    depth: '0.005 in',
    mouth_area: '9.62 in2',
    chamber_volume: '98 cm3',
    rest_volume: '23.6 cm3',
    swept_volume: '704.8 cm3',
    budget: '0.030 in',
    taken: '0 in',
  },
  compute: (input) => {
    const area = squareMetre(input.mouth_area);
    const chamber = cubicMetre(input.chamber_volume);
    const swept = cubicMetre(input.swept_volume);
    const clearance = cubicMetre(chamber + input.rest_volume);
    const volume = skimmedVolume(area, metre(input.depth));
    if (clearance - volume <= 0 || chamber - volume <= 0)
      return {
        issues: [
          {
            code: 'head-skim/nothing-left',
            at: 'depth',
            got: `${volume} m3 off a chamber of ${chamber} m3`,
            wanted: 'a skim that leaves a chamber',
            message: 'Nothing would be left of the chamber. Check depth, area and volumes.',
          },
        ],
      };
    const ends: (readonly [string, number])[] = [
      ...(input.budget === undefined || input.taken === undefined
        ? []
        : [['budget', input.budget - input.taken] as const]),
      ...(input.least_chamber === undefined
        ? []
        : [['least chamber', skimForVolume(chamber, cubicMetre(input.least_chamber), area)] as const]),
      ...(input.greatest_ratio === undefined
        ? []
        : [['greatest ratio', skimForRatio(swept, clearance, area, input.greatest_ratio)] as const]),
    ];
    const first = ends.toSorted((a, b) => a[1] - b[1])[0];
    return {
      results: {
        volume,
        chamber_after: chamber - volume,
        ratio_now: compressionRatio(swept, clearance),
        ratio_after: compressionRatio(swept, cubicMetre(clearance - volume)),
        deepest: first?.[1],
        decided_by: first?.[0],
      },
      cautions:
        first !== undefined && input.depth > first[1]
          ? [
              {
                code: 'head-skim/too-deep',
                message: `This takes more off than the ${first[0]} allows. Take less, or make it up elsewhere, as with a thicker gasket.`,
              },
            ]
          : [],
    };
  },
});

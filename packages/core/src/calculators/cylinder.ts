import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { clearanceVolume, compressionRatio, sweptVolume } from '../geometry/cylinder.ts';
import { cubicMetre, metre } from '../units/si.ts';

const ANY = {};

export const CYLINDER = calculator({
  name: 'cylinder',
  sentence: 'Swept volume, displacement, clearance volume and compression ratio.',
  formula: [
    'swept = π B² S/4, displacement = N · swept',
    'clearance = chamber + π G² t/4 + π B² deck/4 + dish',
    'ratio = (swept + clearance)/clearance',
  ],
  sources: ['heywood-1988'],
  input: {
    bore: quantity('length', 'B'),
    stroke: quantity('length', 'S'),
    cylinders: quantity('ratio', 'N, a whole number', { min: 1, max: 64 }),
    chamber_volume: optionalQuantity('volume', 'Of one chamber in the head', { min: 0 }),
    gasket_thickness: optionalQuantity('length', 't, squeezed'),
    gasket_bore: optionalQuantity('length', 'G, of the hole in the gasket'),
    deck_clearance: optionalQuantity('length', 'Piston below the deck at the top; negative above it', ANY),
    dish_volume: optionalQuantity('volume', 'Hollow of the crown; negative for a dome', ANY),
  },
  together: [['gasket_thickness', 'gasket_bore']],
  output: {
    swept_volume: { kind: 'volume', doc: 'Of one cylinder' },
    displacement: { kind: 'volume', doc: 'Of all' },
    clearance_volume: { kind: 'volume', doc: 'Above one piston at the top', optional: true },
    compression_ratio: { kind: 'ratio', doc: '(swept + clearance)/clearance', optional: true },
  },
  range: 'plain cylinders and a centred crank; ring-land crevices are not counted',
  example: { bore: '3.5 in', stroke: '4.47 in', cylinders: 4 },
  compute: (input) => {
    if (!Number.isInteger(input.cylinders)) {
      return {
        issues: [
          {
            code: 'cylinder/not-whole',
            at: 'cylinders',
            got: String(input.cylinders),
            wanted: 'a whole number',
            message: 'An engine has a whole number of cylinders. Correct it.',
          },
        ],
      };
    }
    const swept = sweptVolume(metre(input.bore), metre(input.stroke));
    const volumes = { swept_volume: swept, displacement: swept * input.cylinders };
    if (input.chamber_volume === undefined) {
      const idle = [input.gasket_thickness, input.deck_clearance, input.dish_volume].some(
        (v) => v !== undefined,
      );
      return {
        results: volumes,
        cautions: idle
          ? [
              {
                code: 'cylinder/no-chamber',
                message: 'Gasket, deck and dish were not used: give chamber_volume for a compression ratio.',
              },
            ]
          : [],
      };
    }
    const optional = (value: number | undefined) => (value === undefined ? undefined : metre(value));
    const clearance = clearanceVolume({
      bore: metre(input.bore),
      chamber: cubicMetre(input.chamber_volume),
      gasketThickness: optional(input.gasket_thickness),
      gasketBore: optional(input.gasket_bore),
      deck: optional(input.deck_clearance),
      dish: input.dish_volume === undefined ? undefined : cubicMetre(input.dish_volume),
    });
    if (clearance <= 0) {
      return {
        issues: [
          {
            code: 'cylinder/no-clearance',
            at: 'chamber_volume',
            got: `${clearance} m3 above the piston`,
            wanted: 'a volume over 0',
            message: 'Chamber, gasket, deck and dish leave no room above the piston. Check signs and units.',
          },
        ],
      };
    }
    return {
      results: {
        ...volumes,
        clearance_volume: clearance,
        compression_ratio: compressionRatio(swept, clearance),
      },
    };
  },
});

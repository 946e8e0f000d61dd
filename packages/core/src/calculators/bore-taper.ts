import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';

export const BORE_TAPER = calculator({
  name: 'bore-taper',
  sentence: 'How much a bore or journal narrows from one section to another, and at what angle.',
  formula: [
    'taper = D₁ − D₂, both in the same axial plane',
    'rate = (D₁ − D₂) ∕ L',
    'half angle = atan((D₁ − D₂) ∕ 2L)',
  ],
  sources: ['iso-3040'],
  input: {
    first: quantity('length', 'D₁, diameter at the first section: of a bore its top'),
    second: quantity('length', 'D₂, diameter at the second, in the same direction'),
    apart: optionalQuantity('length', 'L, from one section to the other along the axis'),
  },
  output: {
    taper: { kind: 'length', doc: 'positive where the first is the larger' },
    rate: { kind: 'ratio', doc: 'taper for each unit of length', optional: true },
    half_angle: { kind: 'angle', doc: 'between the side and the axis', optional: true },
  },
  range: 'two sections: what the bore does between them is not seen',
  example: { first: '3.5045 in', second: '3.5012 in', apart: '4.0 in' },
  compute: ({ first, second, apart }) => {
    const taper = first - second;
    return {
      results: {
        taper,
        ...(apart !== undefined && { rate: taper / apart, half_angle: Math.atan(taper / 2 / apart) }),
      },
      cautions: [],
    };
  },
});

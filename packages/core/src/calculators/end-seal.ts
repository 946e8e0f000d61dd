import { calculator } from '../catalogue/calculator.ts';
import { optionalQuantity, quantity } from '../catalogue/field.ts';
import { endSealLength } from '../seals/end-seal.ts';
import { CORK_SQUEEZE, squeezeFraction } from '../seals/squeeze.ts';
import { metre } from '../units/si.ts';

export const END_SEAL = calculator({
  name: 'end-seal',
  sentence: 'Length to cut a packing for a half-round groove, and how much it is squeezed.',
  formula: ['L = π r + 2 e', 'squeeze = (free − closed)/free'],
  sources: ['half-circle-arc', 'astm-f36', 'practice-seals'],
  input: {
    mean_radius: quantity('length', 'r, of the middle of the packing in its groove'),
    stand_out: quantity('length', 'e, beyond the joint face at each end', { min: 0 }),
    free_thickness: optionalQuantity('length', 'Of the packing as it lies'),
    closed_thickness: optionalQuantity('length', 'Of the room it is closed into'),
  },
  together: [['free_thickness', 'closed_thickness']],
  output: {
    length: { kind: 'length', doc: 'L, to cut' },
    squeeze: { kind: 'ratio', doc: 'Share of the free thickness; negative is a gap', optional: true },
  },
  range: 'a groove of just half a circle; working squeeze of cork 15 to 30 % is common practice, no source',
  example: { mean_radius: '2.060 in', stand_out: '0.060 in' },
  compute: (input) => {
    const { free_thickness: free, closed_thickness: closed } = input;
    const squeeze =
      free === undefined || closed === undefined ? undefined : squeezeFraction(metre(free), metre(closed));
    const outside = squeeze !== undefined && (squeeze < CORK_SQUEEZE.least || squeeze > CORK_SQUEEZE.most);
    return {
      results: { length: endSealLength(metre(input.mean_radius), metre(input.stand_out)), squeeze },
      cautions: outside
        ? [
            {
              code: 'end-seal/squeeze',
              message: `A squeeze of ${Math.round(squeeze * 100)} % is outside the 15 to 30 % usual for cork (common practice, no source).`,
            },
          ]
        : [],
    };
  },
});

import { calculator } from '../catalogue/calculator.ts';
import { choice, defaultedQuantity, quantity } from '../catalogue/field.ts';
import { cleanUpBore, cleanUpJournal } from '../geometry/clean-up.ts';
import { metre } from '../units/si.ts';

export const CLEAN_UP = calculator({
  name: 'clean-up',
  sentence: 'The finished size at which nothing of a worn bore or journal is left.',
  formula: ['bore: D_f = D₀ + 2 s (D − D₀) + 2 e + h', 'journal: d_f = d₀ − 2 s (d₀ − d) − 2 e − h'],
  sources: ['circles-held', 'practice-sizes'],
  input: {
    of: choice('What is cut', ['bore', 'journal']),
    worst: quantity('length', 'D, the largest diameter of a bore, the smallest of a journal'),
    as_made: quantity('length', 'D₀, before it wore'),
    one_sided: defaultedQuantity('ratio', 's, share of the wear on its worst side', 1, { min: 0.5, max: 1 }),
    eccentricity: defaultedQuantity('length', 'e, of the cut from the axis as made', 25.4e-6, { min: 0 }),
    stock: defaultedQuantity('length', 'h, for honing or polishing, on the diameter', 63.5e-6, { min: 0 }),
  },
  output: {
    finished: { kind: 'length', doc: 'Least finished size of a bore, greatest of a journal' },
    change: { kind: 'length', doc: 'From as made: over for a bore, under for a journal' },
  },
  range:
    'round cuts parallel to the axis as made; e of .001 in and h of .0025 in where they are not said are common practice, no source',
  example: { of: 'bore', worst: '3.5077 in', as_made: '3.5000 in' },
  compute: (input) => {
    const cut = {
      oneSided: input.one_sided,
      eccentricity: metre(input.eccentricity),
      stock: metre(input.stock),
    };
    const bore = input.of === 'bore';
    const [worst, made] = [metre(input.worst), metre(input.as_made)];
    const finished = (bore ? cleanUpBore : cleanUpJournal)(worst, made, cut);
    const grown = bore ? worst < made : worst > made;
    if (finished <= 0)
      return {
        issues: [
          {
            code: 'clean-up/nothing-left',
            at: 'worst',
            got: `${worst} m of ${made} m`,
            wanted: 'a journal of which something is left',
            message: 'Nothing would be left of the journal. Check the sizes and their units.',
          },
        ],
      };
    return {
      results: { finished, change: Math.abs(finished - made) },
      cautions: grown
        ? [
            {
              code: 'clean-up/no-wear',
              message: bore
                ? 'The bore measures smaller than it was made: no wear is reckoned with. Check both sizes.'
                : 'The journal measures larger than it was made: no wear is reckoned with. Check both sizes.',
            },
          ]
        : [],
    };
  },
});

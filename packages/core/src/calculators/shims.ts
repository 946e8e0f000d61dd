import { calculator } from '../catalogue/calculator.ts';
import {
  defaultedChoice,
  optionalQuantities,
  optionalQuantity,
  quantities,
  quantity,
} from '../catalogue/field.ts';
import { leastTotal, MOST_SHIMS, shimsFor } from '../fits/shims.ts';
import { metre } from '../units/si.ts';

const MOST_KINDS = 12;

export const SHIMS = calculator({
  name: 'shims',
  sentence: 'Which shims or thrust washers, of those that can be had, bring a gap nearest to its target.',
  formula: ['gap left = gap − Σ nᵢ tᵢ', 'total ≥ Σ of the leaves that go in together'],
  sources: ['shims-together', 'practice-sizes'],
  input: {
    gap: quantity('length', 'Without any of them'),
    thicknesses: quantities('length', 'That can be had'),
    target: quantity('length', 'Gap wanted', { min: 0 }),
    lower: optionalQuantity('length', 'Least gap allowed', { min: 0 }),
    upper: optionalQuantity('length', 'Most gap allowed', { min: 0 }),
    pairs: defaultedChoice('One on each side, both alike', ['no', 'yes'], 'no'),
    fitted_together: optionalQuantities('length', 'Leaves or shims that go in together, both sides at once'),
  },
  output: {
    counts: { kind: 'value', doc: 'How many of each thickness, in the order given' },
    thickness: { kind: 'length', doc: 'Together' },
    gap_left: { kind: 'length', doc: 'With them in' },
    inside: { kind: 'value', doc: 'Whether that is within the limits given', optional: true },
    proven_total: { kind: 'length', doc: 'The total is at least this', optional: true },
    proven_too_large: { kind: 'value', doc: 'Whether that alone is over the upper limit', optional: true },
  },
  range: `up to ${MOST_SHIMS} in one stack (on each side, in pairs) of at most ${MOST_KINDS} thicknesses, flat and free of burrs`,
  example: {
    gap: '0.0235 in',
    thicknesses: ['0.005 in', '0.006 in', '0.0075 in'],
    target: '0.006 in',
    lower: '0.004 in',
    upper: '0.008 in',
  },
  compute: (input) => {
    if (input.thicknesses.length === 0 || input.thicknesses.length > MOST_KINDS)
      return {
        issues: [
          {
            code: 'shims/thicknesses',
            at: 'thicknesses',
            got: `${input.thicknesses.length} thicknesses`,
            wanted: `1 to ${MOST_KINDS}`,
            message: `Give 1 to ${MOST_KINDS} thicknesses that can be had.`,
          },
        ],
      };
    const { lower, upper, fitted_together: together } = input;
    const choice = shimsFor(metre(input.gap), input.thicknesses.map(metre), metre(input.target), {
      pairs: input.pairs === 'yes',
    });
    const limited = lower !== undefined || upper !== undefined;
    const inside =
      choice.gap >= (lower ?? Number.NEGATIVE_INFINITY) - 1e-12 &&
      choice.gap <= (upper ?? Number.POSITIVE_INFINITY) + 1e-12;
    const proven = together === undefined ? undefined : leastTotal(together.map(metre));
    return {
      results: {
        counts: choice.counts,
        thickness: choice.thickness,
        gap_left: choice.gap,
        inside: limited ? inside : undefined,
        proven_total: proven,
        proven_too_large: proven === undefined || upper === undefined ? undefined : proven > upper,
      },
      cautions:
        limited && !inside
          ? [
              {
                code: 'shims/none-inside',
                message:
                  'No stack of these brings the gap within its limits; this one comes nearest to the target.',
              },
            ]
          : [],
    };
  },
});

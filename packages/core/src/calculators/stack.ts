import * as z from 'zod';
import { calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, optionalQuantity, structure } from '../catalogue/field.ts';
import { shareOutside, stackUp, toleranceTerm } from '../stack/stack-up.ts';
import { quantityIn } from '../units/quantity-in.ts';

const MOST_TERMS = 40;
const MOST_TRIALS = 1_000_000;

const terms = z
  .array(
    z.strictObject({
      name: z.string().min(1).max(80).describe('each its own'),
      factor: z.number().default(1).describe('signed: housing 1, wall −2, journal −1'),
      lower: quantityIn('length'),
      upper: quantityIn('length'),
      shape: z
        .enum(['rectangular', 'triangular', 'normal'])
        .default('rectangular')
        .describe('normal: the limits are three standard deviations away'),
    }),
  )
  .min(1)
  .max(MOST_TERMS)
  .describe('lengths that add up, each with its limits');

export const STACK = calculator({
  name: 'stack',
  sentence: 'What lengths with limits add up to: worst case, root-sum-square and by drawing them.',
  formula: [
    'y = Σ fᵢ xᵢ',
    'worst: Σ |fᵢ| tᵢ/2 either side, rss: √Σ (fᵢ tᵢ/2)²',
    'share = fᵢ cov(xᵢ, y)/var(y)',
  ],
  sources: ['jcgm-101', 'jcgm-100'],
  input: {
    terms: structure(terms, 'lengths that add up'),
    lower: optionalQuantity('length', 'Least sum allowed', {}),
    upper: optionalQuantity('length', 'Most allowed', {}),
    trials: defaultedQuantity('ratio', 'Trials drawn', 100_000, { min: 1000, max: MOST_TRIALS }),
    seed: defaultedQuantity('ratio', 'The same seed draws the same', 1, { min: 0, max: 2 ** 31 - 1 }),
  },
  output: {
    middle: { kind: 'length', doc: 'With every term at the middle of its limits' },
    worst_least: { kind: 'length', doc: 'Worst case' },
    worst_greatest: { kind: 'length', doc: 'Worst case' },
    root_sum_square: { kind: 'length', doc: 'Half range by root-sum-square' },
    drawn_low: { kind: 'length', doc: 'Under which 2.5 % of the trials fell' },
    drawn_high: { kind: 'length', doc: 'Over which 2.5 % fell' },
    outside: { kind: 'ratio', doc: 'Share of the trials outside the limits', optional: true },
    shares: { kind: 'value', doc: 'Of the variance, in the order of the terms' },
    tighten: { kind: 'value', doc: 'The term with the largest share' },
  },
  range:
    'linear stacks of independent lengths; limits taken as three deviations for a normal one are common practice, no source',
  example: {
    terms: [
      { name: 'housing', lower: '2.6915 in', upper: '2.6920 in' },
      { name: 'wall', factor: -2, lower: '0.0949 in', upper: '0.0951 in' },
      { name: 'journal', factor: -1, lower: '2.4990 in', upper: '2.5000 in' },
    ],
    lower: '0.0015 in',
    upper: '0.0030 in',
  },
  compute: (input) => {
    const wrong = input.terms.findIndex(({ lower, upper }) => !(upper >= lower));
    if (wrong >= 0)
      return {
        issues: [
          {
            code: 'stack/limits-crossed',
            at: `terms/${wrong}`,
            got: `lower over upper in ${input.terms[wrong]!.name}`,
            wanted: 'lower up to upper',
            message: `The limits of ${input.terms[wrong]!.name} are crossed. Exchange them.`,
          },
        ],
      };
    const twice = input.terms.findIndex(
      ({ name }, i) => input.terms.findIndex((one) => one.name === name) < i,
    );
    if (twice >= 0)
      return {
        issues: [
          {
            code: 'stack/same-name',
            at: `terms/${twice}`,
            got: `${input.terms[twice]!.name} twice`,
            wanted: 'a name for each term',
            message: `${input.terms[twice]!.name} stands twice. Add its factors where it is one thing; name them apart where they are two.`,
          },
        ],
      };
    const factors = input.terms.map(({ factor }) => factor);
    const found = stackUp(
      input.terms.map(({ name, lower, upper, shape }) => toleranceTerm(name, { lower, upper }, shape)),
      (x) => x.reduce((sum, xi, i) => sum + factors[i]! * xi, 0),
      { trials: Math.round(input.trials), seed: Math.round(input.seed) },
    );
    const { lower, upper } = input;
    const most = found.effects.toSorted((a, b) => b.share - a.share)[0]!;
    return {
      results: {
        middle: found.value,
        worst_least: found.worst.least,
        worst_greatest: found.worst.greatest,
        root_sum_square: found.rootSumSquare,
        drawn_low: found.spread.quantile(0.025),
        drawn_high: found.spread.quantile(0.975),
        outside:
          lower === undefined && upper === undefined
            ? undefined
            : shareOutside(found.drawn, { lower, upper }),
        shares: found.effects.map(({ share }) => share),
        tighten: most.name,
      },
    };
  },
});

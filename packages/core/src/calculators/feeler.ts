import { type Answer, calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, optionalQuantity, quantities } from '../catalogue/field.ts';
import type { Caution } from '../issue.ts';
import type { Verdict } from '../metrology/conformity.ts';
import {
  type Bracket,
  bracketOf,
  feelerVerdict,
  lengthInBoth,
  nextLeaf,
  shareInside,
  triesLeft,
} from '../metrology/feeler.ts';
import type { Limits } from '../metrology/limits.ts';
import { fromHalfWidth } from '../uncertainty/evaluation.ts';

/** Rectangular over ± 0.004 mm. */
const LEAF_U = fromHalfWidth(4e-6, 'rectangular');

export const FEELER = calculator({
  name: 'feeler',
  sentence:
    'What feeler leaves that go and that stop say about a gap and its limits, and which leaf to try next.',
  formula: [
    'thickest leaf that goes ≤ gap < thinnest leaf that stops',
    'in when the thinnest that stops ≤ T_U and the thickest that goes ≥ T_L',
    'out when the thickest that goes ≥ T_U or the thinnest that stops ≤ T_L',
    'tries left = ⌈log2(n + 1)⌉ for n leaves strictly between',
  ],
  sources: ['feeler-practice', 'taocp-3', 'feeler-leaf-tolerance', 'jcgm-100'],
  input: {
    goes: quantities('length', 'Leaves that went; an empty list when none did'),
    stops: quantities('length', 'Leaves that did not go; an empty list when all went'),
    leaves: quantities('length', 'Leaves at hand'),
    lower_limit: optionalQuantity('length', 'T_L', { min: 0 }),
    upper_limit: optionalQuantity('length', 'T_U', { min: 0 }),
    leaf_uncertainty: defaultedQuantity(
      'length',
      'Standard uncertainty of a leaf: decides only a caution',
      LEAF_U,
      {
        min: 0,
      },
    ),
  },
  output: {
    lower: { kind: 'length', doc: 'The gap is at least this; 0 when nothing goes' },
    upper: { kind: 'length', doc: 'The gap is less than this; absent when nothing stops', optional: true },
    verdict: { kind: 'value', doc: 'in, out or cannot-tell; absent without limits', optional: true },
    next_leaf: { kind: 'length', doc: 'Leaf to try next; absent when none can tell more', optional: true },
    tries_left: { kind: 'ratio', doc: 'Tries that always suffice with the leaves between' },
    share_inside: {
      kind: 'ratio',
      doc: 'Share of the bracket inside the limits, were every gap in it equally likely; shown, never decides',
      optional: true,
    },
  },
  range: 'clean flat leaves of known thickness, a gap with parallel faces',
  example: {
    goes: ['2 thou'],
    stops: ['6 thou'],
    leaves: ['1.5 thou', '2 thou', '3 thou', '4 thou', '5 thou', '6 thou', '7 thou'],
    upper_limit: '5 thou',
  },
  compute: ({
    goes,
    stops,
    leaves,
    lower_limit: lower,
    upper_limit: upper,
    leaf_uncertainty: leafU,
  }): Answer => {
    if (lower !== undefined && upper !== undefined && lower > upper)
      return {
        issues: [
          {
            code: 'limits/crossed',
            at: 'lower_limit',
            got: `${lengthInBoth(lower)} over ${lengthInBoth(upper)}`,
            wanted: 'a lower limit at or under the upper one',
            message: 'The lower limit is above the upper one. Exchange or correct them.',
          },
        ],
      };
    const read = bracketOf(goes, stops);
    if (!read.ok) return { issues: read.issues };
    const bracket = read.value;
    const limits = { lower, upper };
    const verdict = feelerVerdict(bracket, limits);
    const limited = verdict !== undefined;
    return {
      results: {
        lower: bracket.goes ?? 0,
        upper: bracket.stops,
        verdict,
        next_leaf: nextLeaf(bracket, leaves, limits),
        tries_left: triesLeft(bracket, leaves),
        share_inside: limited ? shareInside(bracket, limits) : undefined,
      },
      cautions: nearLimit(bracket, limits, verdict, leafU),
    };
  },
});

/** Two standard uncertainties, as instruments are usually stated. */
const WITHIN = 2;

function nearLimit(bracket: Bracket, limits: Limits, verdict: Verdict | undefined, leafU: number): Caution[] {
  if (verdict !== 'in' && verdict !== 'out') return [];
  const pairs: readonly (readonly [number | undefined, number | undefined])[] =
    verdict === 'in'
      ? [
          [bracket.stops, limits.upper],
          [bracket.goes, limits.lower],
        ]
      : [
          [bracket.goes, limits.upper],
          [bracket.stops, limits.lower],
        ];
  return pairs.flatMap(([leaf, limit]) =>
    leaf !== undefined && limit !== undefined && Math.abs(leaf - limit) <= WITHIN * leafU
      ? [
          {
            code: 'feeler/leaf-near-limit',
            message:
              `The leaf of ${lengthInBoth(leaf)} decides, and is nearer to the limit ` +
              'than it is sure itself. Check that leaf with a micrometer.',
          },
        ]
      : [],
  );
}

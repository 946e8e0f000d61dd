import { type Answer, calculator } from '../catalogue/calculator.ts';
import { alike, alikeSpread, choice, defaultedQuantity, optionalAlike } from '../catalogue/field.ts';
import type { Caution } from '../issue.ts';
import { conformity, USUAL_RISK } from '../metrology/conformity.ts';
import { QUANTITY_KINDS, type QuantityKind } from '../units/kinds.ts';

const KINDS = Object.keys(QUANTITY_KINDS) as QuantityKind[];

/** Nobody knows the tails of an instrument's errors further out than this. */
const LEAST_RISK = 1e-9;

export const READING_VERDICT = calculator({
  name: 'reading-verdict',
  sentence: 'Whether a reading with its uncertainty proves a value in or out of its limits, or cannot tell.',
  formula: [
    'one limit: p = Φ((T_U − y)/u) or Φ((y − T_L)/u)',
    'two limits: p = Φ((T_U − y)/u) − Φ((T_L − y)/u)',
    'in when p ≥ 1 − risk, out when p ≤ risk, else cannot-tell; guard band g = z(1 − risk) u',
  ],
  sources: ['jcgm-106', 'iso-14253-1', 'as-26'],
  input: {
    value: alike('y, the reading; any kind of quantity, the same for all of these'),
    standard_uncertainty: alikeSpread('u, one standard deviation of what the reading may be wrong by'),
    lower_limit: optionalAlike('T_L'),
    upper_limit: optionalAlike('T_U'),
    risk: defaultedQuantity('ratio', 'Probability of a wrong proof that is accepted', USUAL_RISK, {
      min: LEAST_RISK,
      max: 0.5,
    }),
    kind: {
      ...choice(
        'Kind of quantity, where only bare numbers are given or a unit is open to two readings',
        KINDS,
      ),
      required: false,
      fallback: 'length',
    } as const,
  },
  atLeastOne: [['lower_limit', 'upper_limit']],
  output: {
    verdict: { kind: 'value', doc: 'in, out or cannot-tell' },
    probability_in: { kind: 'ratio', doc: 'p, that the true value is inside' },
    guard_band: { kind: 'alike', doc: 'g, one-sided' },
    accept_from: { kind: 'alike', doc: 'Least reading that proves in', optional: true },
    accept_to: { kind: 'alike', doc: 'Greatest reading that proves in', optional: true },
  },
  range: 'a reading whose possible errors are near enough normal',
  example: {
    value: '2.24875 in',
    standard_uncertainty: '0.0002 in',
    lower_limit: '2.248 in',
    upper_limit: '2.249 in',
  },
  compute: ({
    value,
    standard_uncertainty: u,
    lower_limit: lower,
    upper_limit: upper,
    risk,
    kind,
  }): Answer => {
    if (lower !== undefined && upper !== undefined && lower > upper)
      return {
        issues: [
          {
            code: 'limits/crossed',
            at: 'lower_limit',
            got: `${lower} over ${upper}`,
            wanted: 'a lower limit at or under the upper one',
            message: 'The lower limit is above the upper one. Exchange or correct them.',
          },
        ],
      };
    const found = conformity({ value, u }, { lower, upper }, risk);
    const cautions: Caution[] = [];
    if (u === 0)
      cautions.push({
        code: 'verdict/no-uncertainty',
        message: 'The reading was taken as exact. No instrument is; state its uncertainty.',
      });
    if (lower !== undefined && upper !== undefined && found.acceptFrom === undefined)
      cautions.push({
        code: 'verdict/too-coarse',
        message:
          'With this uncertainty no reading whatever can prove the value in. Measure with a finer instrument.',
      });
    return {
      results: {
        verdict: found.verdict,
        probability_in: found.probabilityIn,
        guard_band: found.guardBand,
        accept_from: found.acceptFrom,
        accept_to: found.acceptTo,
      },
      cautions,
      kind: kind as QuantityKind,
    };
  },
});

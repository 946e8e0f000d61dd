import * as z from 'zod';
import { commonKind } from '../catalogue/alike.ts';
import { type Answer, calculator } from '../catalogue/calculator.ts';
import { defaultedQuantity, structure } from '../catalogue/field.ts';
import type { Caution, Issue } from '../issue.ts';
import { coverageFactor } from '../uncertainty/student.ts';
import { effectiveDof, standardUncertainty, term, uncertain } from '../uncertainty/uncertain.ts';
import type { QuantityKind } from '../units/kinds.ts';
import { parseQuantity } from '../units/quantity.ts';
import { unitOf } from '../units/unit.ts';

/** Half a degree is an uncertainty that is itself doubted by its whole size. */
const LEAST_DOF = 0.5;

const COMPONENT = z.strictObject({
  sensitivity: z.number().describe('c, change of the result for a change of the input'),
  standard_uncertainty: z
    .union([z.number().min(0), z.string().max(120)])
    .describe('u: a number in SI, or with its unit; a quantity of one kind for all that are written so'),
  degrees_of_freedom: z
    .number()
    .min(LEAST_DOF)
    .optional()
    .describe('ν; left out when u is known for certain'),
  source: z.string().max(200).optional().describe('Equal sources add with their signs before squaring'),
});

export const COMBINE_UNCERTAINTY = calculator({
  name: 'combine-uncertainty',
  sentence: 'Combined and expanded uncertainty of a result from its components, with degrees of freedom.',
  formula: [
    'u_c² = Σ over sources (Σ c_i u_i within the source)²',
    'ν_eff = u_c⁴ / Σ (u_i⁴/ν_i)',
    'U = k u_c, k = t_p of the whole part of ν_eff',
  ],
  sources: ['jcgm-100', 'as-26', 'dlmf'],
  input: {
    components: structure(z.array(COMPONENT).min(1).max(1000), 'What contributes'),
    level: defaultedQuantity('ratio', 'Two-sided coverage level', 0.95, { above: 0, max: 0.999999 }),
  },
  output: {
    combined: { kind: 'alike', doc: 'u_c' },
    effective_degrees_of_freedom: {
      kind: 'ratio',
      doc: 'ν_eff, not rounded; absent when infinite',
      optional: true,
    },
    coverage_factor: { kind: 'ratio', doc: 'k' },
    expanded: { kind: 'alike', doc: 'U' },
  },
  range: 'a result near enough linear in its inputs and normal; sources independent of each other',
  example: {
    components: [
      { source: 'micrometer', sensitivity: 1, standard_uncertainty: '2 um' },
      { source: 'repeated readings', sensitivity: 1, standard_uncertainty: '1 um', degrees_of_freedom: 4 },
    ],
  },
  compute: ({ components, level }): Answer => {
    const texts = components.map((c) => c.standard_uncertainty).filter((u) => typeof u === 'string');
    const kind = texts.length > 0 ? commonKind(texts) : ({ ok: true, value: 'ratio' } as const);
    if (!kind.ok) return { issues: kind.issues };
    const issues: Issue[] = [];
    const terms = components.map((c, i) => {
      const u = spread(c.standard_uncertainty, kind.value, i, issues);
      const source = c.source ?? `component ${i + 1}`;
      return term(source, c.sensitivity * u, 'normal', c.degrees_of_freedom ?? Number.POSITIVE_INFINITY);
    });
    if (issues.length > 0) return { issues };
    const budget = uncertain(0, ...terms);
    const combined = standardUncertainty(budget);
    // Past the largest number there is nothing to weigh; the missing value becomes an issue.
    if (!Number.isFinite(combined)) return { results: { combined } };
    const dof = effectiveDof(budget);
    const k = coverageFactor(level, dof);
    const cautions: Caution[] = Number.isFinite(dof)
      ? []
      : [
          {
            code: 'uncertainty/dof-infinite',
            message: 'Every component is known for certain; k is that of the normal law.',
          },
        ];
    return {
      results: {
        combined,
        effective_degrees_of_freedom: Number.isFinite(dof) ? dof : undefined,
        coverage_factor: k,
        expanded: k * combined,
      },
      cautions,
      kind: kind.value,
    };
  },
});

/** A spread has no zero point: 2 °C of doubt are 2 K. */
function spread(u: number | string, kind: QuantityKind, i: number, issues: Issue[]): number {
  if (typeof u === 'number') return u;
  const at = `/components/${i}/standard_uncertainty`;
  const read = parseQuantity(u, kind);
  if (!read.ok) {
    issues.push(...read.issues.map((found) => ({ ...found, at })));
    return 0;
  }
  const value = kind === 'temperature' ? read.value.said * unitOf(read.value.unit).factor : read.value.value;
  if (value >= 0) return value;
  issues.push({
    code: 'input/out-of-range',
    at,
    got: u,
    wanted: 'at least 0',
    message: 'A standard uncertainty is never negative. Put the sign into the sensitivity.',
  });
  return 0;
}

import { effectiveDof, standardUncertainty } from '@fettle/core';
import type { Judgement } from '../assess/judgement.ts';

/** From when on a verdict is said, and of what: with the factor it took where u is known from few readings. */
export function proofWords({ governing, verdicts, operand }: Judgement): string {
  const verdict = governing && verdicts[governing];
  const dof = operand.kind === 'value' ? effectiveDof(operand.q) : Number.POSITIVE_INFINITY;
  const u = operand.kind === 'value' ? standardUncertainty(operand.q) : 0;
  const factor = verdict?.guardBand === undefined || u === 0 ? 1.645 : verdict.guardBand / u;
  const few = Number.isFinite(dof)
    ? `, Student’s t for ${dof.toFixed(1)} degrees of freedom (JCGM 100, G.4)`
    : '';
  const guard = Number(factor.toFixed(few === '' ? 3 : 2));
  const places =
    verdict?.places === undefined
      ? ''
      : ` It is said of all ${verdict.places} places at once; what they have in common is counted.`;
  return `In or out is said from 95 % on (ISO 14253-1:2017; guard band ${guard} u${few}); between, nobody can tell.${places}`;
}

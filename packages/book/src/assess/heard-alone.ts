import type { Verdicts } from './verdict.ts';

/**
 * A verdict stands where witnesses disagree only if it is the same whichever of them is believed; what rests on the
 * disagreement further down is weighed by the same rule. Otherwise it keeps its figures and nobody can tell.
 *
 * @param each  the verdicts with one witness believed alone; undefined where there were too many to be worked out
 */
export function unanimous(together: Verdicts, each: readonly Verdicts[] | undefined): Verdicts {
  return Object.fromEntries(
    Object.values(together).map((verdict) => {
      const stands = each?.every((one) => one[verdict.set]?.verdict === verdict.verdict) ?? false;
      return [verdict.set, stands ? verdict : { ...verdict, verdict: 'cannot-tell' as const }];
    }),
  );
}

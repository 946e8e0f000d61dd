import { jointProbability } from '@fettle/core';
import type { LimitSetName } from './limits.ts';
import type { Operand } from './operand.ts';
import { RISK, type Verdict, type Verdicts } from './verdict.ts';

/** A place as it is weighed together with the others. */
export interface Weighed {
  readonly verdicts: Verdicts;
  /** The number, drawn in by leaves that cut it. */
  readonly number: Operand;
}

/** Beyond this nothing changes in a figure shown in whole per cent. */
const SURE = 0.001;
/** Points of the lattice: accurate to about half a per cent, and quick. */
const POINTS = 300;

/**
 * The verdict on all of several places at once, from that on the worst of them: that every place is within the limits
 * has a smaller probability than that the worst is. What the places have in common is counted. What is out, or cannot be
 * told, at one place alone stays so, with the figures of that place.
 *
 *     1 − Σ (1 − p_i) ≤ p ≤ min p_i
 *
 * Where these two bounds say the same nothing is integrated, and the lower one is given.
 *
 * @source jcgm-106 7 for the proof at 95 %; Bonferroni's inequality for the bound; jointProbability between
 */
export function allPlaces(places: readonly Weighed[], set: LimitSetName, worst: Verdict): Verdict {
  const inside = places.flatMap(({ verdicts }) => verdicts[set]?.probabilityIn ?? []);
  if (worst.verdict !== 'in' || worst.probabilityIn === undefined || inside.length < 2) return worst;
  const doubtful = inside.filter((p) => p < 1 - SURE / places.length).length;
  if (doubtful < 2) return worst;
  const least = Math.max(0, 1 - inside.reduce((sum, p) => sum + (1 - p), 0));
  const joint =
    least >= 1 - RISK && worst.probabilityIn - least < 10 * SURE
      ? least
      : Math.min(worst.probabilityIn, together(places, set));
  const weighed = { ...worst, probabilityIn: joint, places: inside.length };
  if (joint < 1 - RISK) return { ...weighed, verdict: 'cannot-tell' };
  return weighed;
}

function together(places: readonly Weighed[], set: LimitSetName): number {
  const numbers = places.flatMap(({ verdicts, number }) => {
    const verdict = verdicts[set];
    return number.kind === 'value' && verdict ? [{ q: number.q, limits: verdict.limits }] : [];
  });
  return jointProbability(
    numbers.map(({ q }) => q),
    numbers.map(({ limits }) => limits),
    POINTS,
  );
}

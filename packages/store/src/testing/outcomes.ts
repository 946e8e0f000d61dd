import type { Outcome } from '../outcome.ts';

/** The value of an outcome that must be good; its issues make the failure readable. */
export function goodValue<T>(outcome: Outcome<T>): T {
  if (!outcome.ok)
    throw new Error(outcome.issues.map((issue) => `${issue.code} ${issue.message}`).join('\n'));
  return outcome.value;
}

export const codesOf = (outcome: Outcome<unknown>): string[] =>
  outcome.ok ? [] : outcome.issues.map((issue) => issue.code);

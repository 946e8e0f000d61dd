import type { Issue, Outcome } from '@fettle/core';
import type { Io } from './io.ts';

/** What a command has to say: once for programs, once for people. */
export interface Reply {
  readonly json: unknown;
  readonly text: string;
  /** The text is already for programs, a JSON object a line, and stays so. */
  readonly lines?: boolean;
  /** 0: all well. 1: something is out, undecided or missing. */
  readonly status?: 0 | 1;
}

/** Bad use. */
export const BAD_USE = 2;

export function printed(io: Io, outcome: Outcome<Reply>, json: boolean): number {
  if (!outcome.ok) return refused(io, outcome.issues, json);
  const { value } = outcome;
  const text = json && !value.lines ? JSON.stringify(value.json, null, 2) : value.text.trimEnd();
  if (text !== '' || !value.lines) io.out(`${text}\n`);
  return value.status ?? 0;
}

export function refused(io: Io, issues: readonly Issue[], json: boolean): number {
  if (json) io.out(`${JSON.stringify({ issues }, null, 2)}\n`);
  else for (const issue of issues) io.err(`${issue.message} (${issue.code})\n`);
  return BAD_USE;
}

import type { Issue, Outcome } from '@fettle/core';
import type { Io } from './io.ts';

/** What a command has to say: once for programs, once for people. */
export interface Reply {
  readonly json: unknown;
  readonly text: string;
  /** 0: all well. 1: something is out, undecided or missing. */
  readonly status?: 0 | 1;
}

/** Bad use. */
export const BAD_USE = 2;

export function printed(io: Io, outcome: Outcome<Reply>, json: boolean): number {
  if (!outcome.ok) return refused(io, outcome.issues, json);
  const { value } = outcome;
  io.out(json ? `${JSON.stringify(value.json, null, 2)}\n` : `${value.text.trimEnd()}\n`);
  return value.status ?? 0;
}

export function refused(io: Io, issues: readonly Issue[], json: boolean): number {
  if (json) io.out(`${JSON.stringify({ issues }, null, 2)}\n`);
  else for (const issue of issues) io.err(`${issue.message} (${issue.code})\n`);
  return BAD_USE;
}

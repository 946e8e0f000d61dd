import type { Issue } from '@fettle/core';
import { signal } from '@preact/signals';
import type { Draft } from '../../ledger/writing.ts';
import { job, strike, write } from '../../state/job.ts';

/** What was entered last from here, read back until the next. */
export const lastEntered = signal<
  { readonly of: string; readonly entry: string; readonly words: string } | undefined
>(undefined);
export const faults = signal<readonly Issue[]>([]);

/** Enters one thing and reads it back. @param words  what is read back; worked out once the entry counts */
export async function enterOne(draft: Draft, words: () => string): Promise<boolean> {
  const entries = await write([draft]);
  faults.value = entries.ok ? [] : entries.issues;
  if (!entries.ok) return false;
  lastEntered.value = { of: job.value ?? '', entry: entries.value[0]!.id, words: words() };
  return true;
}

/** Takes back what was entered last: struck, with the reason that it was a slip. */
export async function undoLast(): Promise<void> {
  const last = lastEntered.value;
  if (!last || last.of !== job.value) return;
  const struck = await strike(last.entry, 'undo at once');
  faults.value = struck.ok ? [] : struck.issues;
  if (struck.ok) lastEntered.value = undefined;
}

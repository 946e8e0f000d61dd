import type { Entry } from '@fettle/book';

/** Whether a ledger only grew, by readings and what strikes them: then one characteristic can be judged by itself. */
export function grewByReadings(before: readonly Entry[], now: readonly Entry[]): boolean {
  if (before.length === 0 || now.length <= before.length) return false;
  const known = new Set(before.map(({ id }) => id));
  const added = now.filter(({ id }) => !known.has(id));
  return (
    added.length === now.length - before.length &&
    added.every(({ kind }) => kind === 'reading' || kind === 'strike')
  );
}

import type { Catalogue, SheetReader, SpecSheet } from '@fettle/book';
import { ok } from '@fettle/core';
import { signal } from '@preact/signals';
import { further } from './further.ts';

/**
 * What only some jobs need and what is heavy to load: every calculator, which a relation may name, and the full
 * check of an amended sheet. The first page shows without them; they come after it and the job is judged once more.
 */
interface Heavy {
  readonly readSheet: SheetReader;
  readonly catalogue: Catalogue;
  readonly loaded: boolean;
}

/** Believed for the moment it takes to load the check itself. */
const believed: SheetReader = (value) => ok(value as SpecSheet);

export const heavy = signal<Heavy>({ readSheet: believed, catalogue: new Map(), loaded: false });

/** Loads the rest; called once the first page stands. */
export async function loadHeavy(): Promise<void> {
  heavy.value = { ...(await import('./heavy-parts.ts')).HEAVY_PARTS, loaded: true };
  further.value = (await import('./further-parts.ts')).furtherFetched;
}

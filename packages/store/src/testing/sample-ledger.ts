import { type Entry, newEntryId, nextEntry } from '@fettle/book';

/** Invented ledgers for the tests of this package. */

export const JOB = '01920000-0000-7000-8000-000000000001';
export const OTHER_JOB = '01920000-0000-7000-8000-000000000002';

/** The n-th id: in order, the same on every run. */
export function sampleId(n: number): string {
  const random = new Uint8Array(10);
  new DataView(random.buffer).setUint32(6, n);
  return newEntryId(1_700_000_000_000 + n, random);
}

/** Notes of one device, each written after the ones before; `first` keeps ids of several ledgers apart. */
export function sampleLedger(
  texts: readonly string[],
  { job = JOB, device = 'bench', first = 1 }: { job?: string; device?: string; first?: number } = {},
): Entry[] {
  const entries: Entry[] = [];
  for (const [index, text] of texts.entries()) {
    const id = sampleId(first + index);
    entries.push(
      nextEntry(entries, { job, device, who: 'Sam', at: '2026-03-01T10:00:00Z', id }, 'note', { text }),
    );
  }
  return entries;
}

/** An entry of a kind from the future, written after `ledger`. */
export function newerEntry(ledger: readonly Entry[], id: string, body: Record<string, unknown>): Entry {
  const pen = { job: JOB, device: 'bench', who: 'Sam', at: '2026-03-01T11:00:00Z', id };
  const entry = nextEntry(ledger, pen, 'note', { text: 'stands in' });
  return { ...entry, kind: 'part-marked', v: 3, body };
}

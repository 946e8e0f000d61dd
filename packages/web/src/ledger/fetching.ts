import { contentHash, type Entry, type SpecSheet, sameEntry } from '@fettle/book';
import { type Outcome, ok } from '@fettle/core';
import type { Database } from './database.ts';
import type { Server } from './server.ts';
import { sheetByShape } from './sheet-shape.ts';

export type Fetched = 'new' | 'nothing-new' | 'offline' | 'stranger';

const isBack = (last: number, after: number): boolean => last < after;

/**
 * Fetches what the server came by since last time and lays it to what is here: a union, whatever came from whom.
 * A server that counts less far than it did has another store under it; then all of it is fetched, and all of ours is
 * offered to it again.
 */
export async function entriesFetched(db: Database, server: Server, job: string): Promise<Fetched> {
  const known = await db.get('jobs', job);
  const after = known?.after ?? 0;
  const answer = await server.entriesAfter(job, after);
  if (answer.state !== 'done')
    return answer.state === 'stranger' ? 'stranger' : answer.state === 'offline' ? 'offline' : 'nothing-new';
  const { entries, last } = answer.value;
  if (isBack(last, after)) {
    await db.put('jobs', { job, title: known?.title ?? '', after: 0 });
    await offeredAgain(db, job);
    return entriesFetched(db, server, job);
  }
  const change = db.transaction(['entries', 'reused', 'outbox', 'jobs'], 'readwrite');
  const [here, reused, outbox, jobs] = [
    change.objectStore('entries'),
    change.objectStore('reused'),
    change.objectStore('outbox'),
    change.objectStore('jobs'),
  ];
  let fresh = 0;
  for (const entry of entries) {
    const mine = await here.get(entry.id);
    if (mine && !sameEntry(mine, entry)) {
      const beside = { id: entry.id, hash: contentHash(entry), job, entry };
      if (!(await reused.get([beside.id, beside.hash]))) {
        await reused.put(beside);
        fresh += 1;
      }
      continue;
    }
    if (!mine) {
      await here.put(entry);
      fresh += 1;
    }
    // The server has it, even where its answer to our sending never came.
    await outbox.delete(entry.id);
  }
  const opening = entries.find(({ kind }) => kind === 'job-opened');
  const title = opening ? String(opening.body.title) : (known?.title ?? '');
  await jobs.put({ job, title, after: last });
  await change.done;
  return fresh > 0 ? 'new' : 'nothing-new';
}

async function offeredAgain(db: Database, job: string): Promise<void> {
  const change = db.transaction(['entries', 'outbox', 'sheets'], 'readwrite');
  for (const { id, n } of await change.objectStore('entries').index('job').getAll(job))
    await change.objectStore('outbox').put({ id, job, n });
  const sheets = change.objectStore('sheets');
  for (const sheet of await sheets.getAll()) await sheets.put({ ...sheet, unsent: true });
  await change.done;
}

export const sheetsNamed = (entries: readonly Entry[]): string[] => [
  ...new Set(entries.flatMap(({ kind, body }) => (kind === 'spec-adopted' ? [String(body.sheet)] : []))),
];

export type ReadSheet = (json: unknown) => Promise<Outcome<SpecSheet>>;

/** The sheets a ledger names: from here, else from the server, told by their shape where that is enough for now. */
export async function sheetsFor(
  db: Database,
  server: Server,
  entries: readonly Entry[],
  { byShape, read }: { readonly byShape: boolean; readonly read: ReadSheet },
): Promise<Map<string, SpecSheet>> {
  const sheets = new Map<string, SpecSheet>();
  for (const hash of sheetsNamed(entries)) {
    const kept = await db.get('sheets', hash);
    if (kept) {
      sheets.set(hash, kept.sheet);
      continue;
    }
    const answer = await server.sheet(hash);
    if (answer.state !== 'done') continue;
    const json = answer.value;
    const shaped = byShape ? sheetByShape(json, hash) : undefined;
    const sheet = shaped ? ok(shaped) : await read(json);
    if (!sheet.ok) continue;
    await db.put('sheets', { hash, json, sheet: sheet.value, ...(shaped && { unchecked: true }) });
    sheets.set(hash, sheet.value);
  }
  return sheets;
}

/** Makes the checks that sheets told by their shape still want. One that fails is not kept. Tells whether there were any. */
export async function sheetsChecked(db: Database, read: ReadSheet): Promise<boolean> {
  let any = false;
  for (const { unchecked, ...kept } of await db.getAll('sheets')) {
    if (!unchecked) continue;
    any = true;
    const sheet = await read(kept.json);
    if (sheet.ok) await db.put('sheets', { ...kept, sheet: sheet.value });
    else await db.delete('sheets', kept.hash);
  }
  return any;
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chainFaults, type Entry, nextEntry, readEntry } from '@fettle/book';
import { openDataDirectory } from '@fettle/store';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { freshId, JOB, ledgerOf } from './testing/bench.ts';
import { servingChild } from './testing/serving-child.ts';

const KILLS = 40;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-killed-server-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

it(`loses nothing it acknowledged and keeps nothing twice when killed ${KILLS} times amid requests`, async () => {
  const data = join(folder, 'data');
  /** As a page keeps it: everything it wrote, and what of it is still to be sent. */
  const ledger: Entry[] = ledgerOf([]);
  let outbox: Entry[] = [...ledger];
  const acknowledged = new Set<string>();
  let unanswered = 0;

  for (let kill = 0; kill < KILLS; kill++) {
    const server = await servingChild(data);
    // A parcel is on its way at any moment; now and then the server dies right after it came up.
    const dying = pause(Math.random() * (kill % 4 === 0 ? 20 : 120)).then(server.kill);
    for (let isAlive = true; isAlive; ) {
      for (let n = 0; n < 3; n++) {
        const pen = { job: JOB, device: 'tablet', who: 'Sam', at: '2026-03-01T10:00:00Z', id: freshId() };
        const entry = nextEntry(ledger.slice(-1), pen, 'note', { text: `note ${ledger.length}` });
        ledger.push(entry);
        outbox.push(entry);
      }
      const parcel = outbox.slice(0, 200);
      try {
        const response = await fetch(new URL(`/api/jobs/${JOB}/entries`, server.address), {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(parcel),
        });
        expect(response.status).toBe(200);
        const { added, known } = (await response.json()) as { added: string[]; known: string[] };
        expect([...added, ...known].sort()).toEqual(parcel.map(({ id }) => id).sort());
        for (const id of [...added, ...known]) acknowledged.add(id);
        outbox = outbox.filter(({ id }) => !acknowledged.has(id));
      } catch (error) {
        // What fetch throws when the line goes dead; anything else is this test's own finding.
        if (!(error instanceof TypeError)) throw error;
        isAlive = false;
        unanswered += 1;
      }
    }
    await dying;
  }

  const directory = await openDataDirectory(data);
  if (!directory.ok) throw new Error(directory.issues[0]?.message);
  const kept = await directory.value.store.entries(JOB);
  await directory.value.close();
  if (!kept.ok) throw new Error(kept.issues[0]?.message);
  const { entries } = kept.value;
  const ids = entries.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const there = new Set(ids);
  expect([...acknowledged].filter((id) => !there.has(id))).toEqual([]);
  // What is there and was not acknowledged is what a page sends again: at most its last parcel.
  const wanted = new Map(ledger.map((entry) => [entry.id, entry]));
  for (const entry of entries) expect(entry).toEqual(wanted.get(entry.id));
  expect(entries.map(readEntry).filter(({ ok }) => !ok)).toEqual([]);
  expect(chainFaults(entries).forks).toEqual([]);
  expect(unanswered).toBe(KILLS);
  // Three for each kill at least, or the kills came too early to mean anything.
  expect(acknowledged.size).toBeGreaterThan(3 * KILLS);
}, 300_000);

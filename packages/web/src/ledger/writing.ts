import {
  type Body,
  contentHash,
  type Entry,
  type Kind,
  newEntryId,
  nextEntry,
  type SpecSheet,
} from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import type { Database } from './database.ts';
import { deviceOf } from './device.ts';
import { keepingFault } from './fault.ts';

/** An entry before it has its envelope. */
export type Draft = { [K in Kind]: { readonly kind: K; readonly body: Body<K> } }[Kind];

/** The part of `navigator.locks` that writing needs. */
export interface Locks {
  request<T>(name: string, held: () => Promise<T>): Promise<T>;
}

/** What writing needs and cannot know by itself. */
export interface Hand {
  readonly db: Database;
  readonly locks: Locks;
  readonly now: () => number;
  readonly random: (count: number) => Uint8Array;
}

const hex = (bytes: Uint8Array): string => [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');

/** The clock as ISO 8601 in UTC; it is for people and never decides, so a mad one is still written down. */
const clockReading = (millis: number): string => new Date(Math.max(0, millis)).toISOString();

const freshId = ({ now, random }: Hand): string => newEntryId(Math.max(0, now()), random(10));

/**
 * Makes entries and keeps them, with a place in the outbox, in one transaction: what comes back is on record.
 * Tabs take turns by a lock, so that no page number is given twice; the entries before are read inside it.
 */
export async function written(
  hand: Hand,
  at: { readonly job: string; readonly who: string },
  drafts: readonly Draft[],
  sheet?: { readonly json: unknown; readonly sheet: SpecSheet },
): Promise<Outcome<readonly Entry[]>> {
  try {
    return ok(await hand.locks.request('fettle-writing', () => kept(hand, at, drafts, sheet)));
  } catch (error) {
    return failed(keepingFault(error));
  }
}

async function kept(
  hand: Hand,
  { job, who }: { readonly job: string; readonly who: string },
  drafts: readonly Draft[],
  sheet: { readonly json: unknown; readonly sheet: SpecSheet } | undefined,
): Promise<Entry[]> {
  const device = await deviceOf(hand.db, () => hex(hand.random(8)));
  const change = hand.db.transaction(['entries', 'outbox', 'sheets', 'jobs'], 'readwrite', {
    durability: 'strict',
  });
  const done = change.done.catch((error: unknown) => {
    throw error;
  });
  try {
    const ledger = await change.objectStore('entries').index('job').getAll(job);
    const fresh: Entry[] = [];
    for (const { kind, body } of drafts) {
      const pen = { job, device, who, at: clockReading(hand.now()), id: freshId(hand) };
      fresh.push(nextEntry([...ledger, ...fresh], pen, kind, body));
    }
    if (sheet) {
      const hash = contentHash(sheet.json);
      const known = await change.objectStore('sheets').get(hash);
      if (!known) await change.objectStore('sheets').put({ hash, ...sheet, unsent: true });
    }
    const opening = fresh.find(({ kind }) => kind === 'job-opened');
    if (opening) await change.objectStore('jobs').put({ job, title: String(opening.body.title), after: 0 });
    for (const entry of fresh) {
      await change.objectStore('entries').add(entry);
      await change.objectStore('outbox').add({ id: entry.id, job, n: entry.n });
    }
    await done;
    return fresh;
  } catch (error) {
    // Already aborted when the fault came from the transaction itself.
    try {
      change.abort();
    } catch {}
    await done.catch(() => {});
    throw error;
  }
}

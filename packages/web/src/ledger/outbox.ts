import type { Entry } from '@fettle/book';
import type { Database, Unsent } from './database.ts';
import type { Answer, Server } from './server.ts';
import type { Locks } from './writing.ts';

/** How the sending went, for the line that says so on the page. */
export interface Sending {
  readonly state: 'sent' | 'offline' | 'stranger' | 'unable' | 'refused';
  /** Entries still here alone. */
  readonly left: number;
  readonly words?: string;
}

/** Entries sent together; a server's body limit is far above it. */
const BATCH = 100;

/**
 * Sends what waits, sheets before the entries that name them. An entry leaves the outbox only when a server has said
 * that it keeps it: killed in between, it is sent again, and the server knows it by its id.
 */
export async function outboxSent(db: Database, server: Server, locks: Locks): Promise<Sending> {
  return locks.request('fettle-sending', async () => {
    const sheets = await sheetsSent(db, server);
    if (sheets) return { ...sheets, left: await db.count('outbox') };
    const waiting = (await db.getAll('outbox')).filter(({ refused }) => refused === undefined);
    for (const job of new Set(waiting.map((one) => one.job))) {
      const own = waiting.filter((one) => one.job === job).sort((a, b) => a.n - b.n);
      for (let i = 0; i < own.length; i += BATCH) {
        const stopped = await batchSent(db, server, job, own.slice(i, i + BATCH));
        if (stopped) return { ...stopped, left: await db.count('outbox') };
      }
    }
    const left = await db.getAll('outbox');
    const words = left.find(({ refused }) => refused !== undefined)?.refused;
    return words === undefined
      ? { state: 'sent', left: left.length }
      : { state: 'refused', left: left.length, words };
  });
}

type Stopped = Omit<Sending, 'left'>;

/** Why sending stops here, unless it goes on. */
function stopOf(answer: Answer<unknown>): Stopped | undefined {
  if (answer.state === 'done' || answer.state === 'refused') return undefined;
  return answer.state === 'unable' ? { state: 'unable', words: answer.words } : { state: answer.state };
}

async function sheetsSent(db: Database, server: Server): Promise<Stopped | undefined> {
  for (const kept of await db.getAll('sheets')) {
    if (!kept.unsent) continue;
    const answer = await server.sendSheet(kept.hash, kept.json);
    const stopped = stopOf(answer);
    if (stopped) return stopped;
    if (answer.state === 'done') {
      const { unsent: _unsent, ...sent } = kept;
      await db.put('sheets', sent);
    }
  }
  return undefined;
}

async function batchSent(
  db: Database,
  server: Server,
  job: string,
  batch: readonly Unsent[],
): Promise<Stopped | undefined> {
  const entries: Entry[] = [];
  for (const { id } of batch) {
    const entry = await db.get('entries', id);
    if (entry) entries.push(entry);
  }
  const answer = await server.send(job, entries);
  const stopped = stopOf(answer);
  if (stopped) return stopped;
  if (answer.state === 'done') {
    const change = db.transaction('outbox', 'readwrite');
    await Promise.all([...batch.map(({ id }) => change.store.delete(id)), change.done]);
    return undefined;
  }
  if (answer.state !== 'refused') return undefined;
  if (batch.length > 1) {
    // All or nothing on the server: one at a time, so that one bad page does not hold up the others.
    for (const one of batch) {
      const alone = await batchSent(db, server, job, [one]);
      if (alone) return alone;
    }
    return undefined;
  }
  await db.put('outbox', { ...batch[0]!, refused: answer.issues[0]?.message ?? 'The server refused it.' });
  return undefined;
}

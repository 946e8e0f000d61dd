import 'fake-indexeddb/auto';
import {
  chainFaults,
  contentHash,
  type Entry,
  foldedBook,
  merged,
  outlineSheet,
  readSheet,
  type SpecSheet,
} from '@fettle/book';
import { IDBObjectStore as FDBObjectStore, IDBFactory } from 'fake-indexeddb';
import { beforeEach, expect, it } from 'vitest';
import { type Database, entriesOf, openDatabase } from './database.ts';
import { deviceOf } from './device.ts';
import { draftAt, draftKept, draftsOf, type ReadingDraft } from './drafts.ts';
import { entriesFetched, type ReadSheet, sheetsChecked, sheetsFor } from './fetching.ts';
import { outboxSent } from './outbox.ts';
import type { Answer, Server } from './server.ts';
import { sheetByShape } from './sheet-shape.ts';
import { type Draft, type Hand, type Locks, written } from './writing.ts';

const JOB = '01965c1e-4000-7000-8000-000000000001';
const NOTE = (text: string): Draft => ({ kind: 'note', body: { text } });
const BY = { job: JOB, who: 'Ana' };

beforeEach(() => {
  Object.assign(globalThis, { indexedDB: new IDBFactory() });
});

/** Locks as a browser has them: one holder of a name at a time, the others in turn. */
function turns(): Locks {
  const tails = new Map<string, Promise<unknown>>();
  return {
    request: (name, held) => {
      const before = tails.get(name) ?? Promise.resolve();
      const now = before.then(held, held);
      tails.set(
        name,
        now.catch(() => {}),
      );
      return now;
    },
  };
}

let seed = 1;
/** Bytes that are the same each run and do not come again within it (a 32-bit congruential generator). */
const random = (count: number): Uint8Array =>
  Uint8Array.from({ length: count }, () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return seed >>> 24;
  });

const handOn = (db: Database, locks: Locks, now: () => number = () => 1_800_000_000_000): Hand => ({
  db,
  locks,
  now,
  random,
});

/** A server that keeps what it is sent, and can be made to fail before or after it has kept it. */
class FakeServer implements Server {
  readonly kept: Entry[] = [];
  readonly sheets = new Map<string, unknown>();
  fail: 'no' | 'before' | 'after' | 'full' = 'no';
  refuse: (entry: Entry) => boolean = () => false;
  sent = 0;

  async send(_job: string, entries: readonly Entry[]): Promise<Answer<unknown>> {
    this.sent += 1;
    if (this.fail === 'before') return { state: 'offline' };
    if (this.fail === 'full') return { state: 'unable', words: 'The disk is full.' };
    if (entries.some(this.refuse))
      return {
        state: 'refused',
        issues: [{ code: 'x', at: '', got: '', wanted: '', message: 'Its id is another entry’s.' }],
      };
    for (const entry of entries) if (!this.kept.some(({ id }) => id === entry.id)) this.kept.push(entry);
    return this.fail === 'after' ? { state: 'offline' } : { state: 'done', value: {} };
  }
  async entriesAfter(_job: string, after: number) {
    if (this.fail !== 'no') return { state: 'offline' as const };
    return { state: 'done' as const, value: { entries: this.kept.slice(after), last: this.kept.length } };
  }
  async jobs() {
    return { state: 'done' as const, value: [] };
  }
  async sheet(hash: string): Promise<Answer<unknown>> {
    return { state: 'done', value: this.sheets.get(hash) };
  }
  async sendSheet(hash: string, json: unknown): Promise<Answer<unknown>> {
    if (this.fail !== 'no') return { state: 'offline' };
    this.sheets.set(hash, json);
    return { state: 'done', value: {} };
  }

  async sendPhoto(): Promise<Answer<unknown>> {
    return { state: 'offline' };
  }
}

const pages = async (db: Database): Promise<Entry[]> => merged(await db.getAll('entries'), []);

it('makes one device of a browser profile, also when two tabs look for its name at once', async () => {
  const [a, b] = [await openDatabase(), await openDatabase()];
  const names = await Promise.all([deviceOf(a, () => 'one'), deviceOf(b, () => 'two')]);
  expect(names[0]).toBe(names[1]);
  expect(await deviceOf(a, () => 'three')).toBe(names[0]);
});

it('gives no page number twice when two tabs write at once', async () => {
  const locks = turns();
  const [a, b] = [await openDatabase(), await openDatabase()];
  const work = Array.from({ length: 20 }, (_, i) =>
    written(handOn(i % 2 ? a : b, locks), BY, [NOTE(`note ${i}`)]),
  );
  const outcomes = await Promise.all(work);
  expect(outcomes.every(({ ok }) => ok)).toBe(true);
  const ledger = await pages(a);
  expect(ledger.map(({ n }) => n).sort((x, y) => x - y)).toEqual(Array.from({ length: 20 }, (_, i) => i + 1));
  expect(chainFaults(ledger)).toEqual({ forks: [], broken: [] });
});

it('holds the chain even where a browser has no locks, since the transaction takes turns as well', async () => {
  const lawless: Locks = { request: (_name, held) => held() };
  const [a, b] = [await openDatabase(), await openDatabase()];
  await Promise.all([a, b, a, b].map((db, i) => written(handOn(db, lawless), BY, [NOTE(`${i}`)])));
  expect(chainFaults(await pages(a))).toEqual({ forks: [], broken: [] });
});

it('sends an entry again when the answer was lost, and the server has it once', async () => {
  const db = await openDatabase();
  const locks = turns();
  const server = new FakeServer();
  await written(handOn(db, locks), BY, [NOTE('one'), NOTE('two')]);
  server.fail = 'after';
  expect(await outboxSent(db, server, locks)).toEqual({ state: 'offline', left: 2 });
  server.fail = 'no';
  expect(await outboxSent(db, server, locks)).toEqual({ state: 'sent', left: 0 });
  expect(server.kept.map(({ body }) => body.text)).toEqual(['one', 'two']);
  const before = server.sent;
  await outboxSent(db, server, locks);
  expect(server.sent).toBe(before);
});

it('keeps everything while the server is away or its disk is full, and says which', async () => {
  const db = await openDatabase();
  const locks = turns();
  const server = new FakeServer();
  await written(handOn(db, locks), BY, [NOTE('one')]);
  server.fail = 'before';
  expect(await outboxSent(db, server, locks)).toEqual({ state: 'offline', left: 1 });
  server.fail = 'full';
  expect(await outboxSent(db, server, locks)).toEqual({
    state: 'unable',
    words: 'The disk is full.',
    left: 1,
  });
  expect((await pages(db)).map(({ body }) => body.text)).toEqual(['one']);
});

it('is not held up by one entry that the server refuses', async () => {
  const db = await openDatabase();
  const locks = turns();
  const server = new FakeServer();
  await written(handOn(db, locks), BY, [NOTE('good'), NOTE('bad'), NOTE('good too')]);
  server.refuse = ({ body }) => body.text === 'bad';
  const said = await outboxSent(db, server, locks);
  expect(said).toMatchObject({ state: 'refused', left: 1, words: 'Its id is another entry’s.' });
  expect(server.kept.map(({ body }) => body.text)).toEqual(['good', 'good too']);
  expect(await db.count('entries')).toBe(3);
});

it('leaves an entry in the outbox for the next page when the tab is killed while sending', async () => {
  const db = await openDatabase();
  const locks = turns();
  const server = new FakeServer();
  await written(handOn(db, locks), BY, [NOTE('one')]);
  // The tab dies while it waits: the answer never comes, and nobody goes on.
  const dead: Server = Object.assign(new FakeServer(), { send: () => new Promise<never>(() => {}) });
  void outboxSent(db, dead, { request: (_name, held) => held() });
  await new Promise((done) => setTimeout(done, 20));
  db.close();
  const next = await openDatabase();
  expect(await next.count('outbox')).toBe(1);
  expect(await outboxSent(next, server, turns())).toEqual({ state: 'sent', left: 0 });
  expect(server.kept).toHaveLength(1);
});

it('brings two devices together by union, whoever is fetched first', async () => {
  const server = new FakeServer();
  const sides: Database[] = [];
  for (const name of ['tablet', 'phone']) {
    const db = await openDatabase(name);
    await written(handOn(db, turns()), BY, [NOTE(`from the ${name}`)]);
    await outboxSent(db, server, turns());
    sides.push(db);
  }
  for (const db of sides) await entriesFetched(db, server, JOB);
  const [a, b] = [await pages(sides[0]!), await pages(sides[1]!)];
  expect(a).toHaveLength(2);
  expect(a).toEqual(b);
  expect(await entriesFetched(sides[0]!, server, JOB)).toBe('nothing-new');
});

it('keeps what the server has under an id of its own beside what is here, and sends its own all the same', async () => {
  const db = await openDatabase();
  const server = new FakeServer();
  const said = await written(handOn(db, turns()), BY, [NOTE('mine'), NOTE('more')]);
  if (!said.ok) throw new Error('nothing written');
  const theirs = { ...said.value[0]!, body: { text: 'theirs' } };
  server.kept.push(theirs);
  expect(await entriesFetched(db, server, JOB)).toBe('new');
  expect(await entriesFetched(db, server, JOB)).toBe('nothing-new');
  expect(await db.count('outbox')).toBe(2);
  const book = foldedBook(await entriesOf(db, JOB), new Map(), readSheet);
  expect(book.entries).toHaveLength(2);
  expect(book.reused.map(({ folded, others }) => [folded, ...others].map(({ body }) => body.text))).toEqual([
    ['mine', 'theirs'],
  ]);
});

it('counts an entry as sent when it comes back from the server, though the answer to its sending was lost', async () => {
  const db = await openDatabase();
  const server = new FakeServer();
  await written(handOn(db, turns()), BY, [NOTE('one')]);
  server.fail = 'after';
  await outboxSent(db, server, turns());
  server.fail = 'no';
  await entriesFetched(db, server, JOB);
  expect(await db.count('outbox')).toBe(0);
});

it('offers everything again to a server that has forgotten', async () => {
  const db = await openDatabase();
  const server = new FakeServer();
  await written(handOn(db, turns()), BY, [NOTE('one'), NOTE('two')]);
  await outboxSent(db, server, turns());
  await entriesFetched(db, server, JOB);
  const fresh = new FakeServer();
  await entriesFetched(db, fresh, JOB);
  expect(await outboxSent(db, fresh, turns())).toEqual({ state: 'sent', left: 0 });
  expect(fresh.kept).toHaveLength(2);
});

it('orders by tick when the clock is wrong, and writes down what the clock said', async () => {
  const db = await openDatabase();
  const clocks = [4_000_000_000_000, 0, -5, 1_800_000_000_000];
  for (const now of clocks)
    await written(
      handOn(db, turns(), () => now),
      BY,
      [NOTE(String(now))],
    );
  const ledger = await pages(db);
  expect(ledger.map(({ body }) => body.text)).toEqual(clocks.map(String));
  expect(ledger.map(({ at }) => at.slice(0, 4))).toEqual(['2096', '1970', '1970', '2027']);
  expect(chainFaults(ledger)).toEqual({ forks: [], broken: [] });
});

it('makes nothing and says so when the device has no room, and keeps what was typed', async () => {
  const db = await openDatabase();
  const draft: ReadingDraft = {
    characteristic: 'crank.main-journal',
    place: { main: '2', end: 'front' },
    text: '2.498',
    leaves: {},
    touched: 1,
  };
  await draftKept(db, JOB, draft);
  // The entry itself still fits; its place in the outbox does not. Both are kept or neither.
  const { add } = FDBObjectStore.prototype;
  FDBObjectStore.prototype.add = function (
    this: InstanceType<typeof FDBObjectStore>,
    ...said: Parameters<typeof add>
  ) {
    if (this.name === 'outbox') throw new DOMException('no room', 'QuotaExceededError');
    return add.apply(this, said);
  };
  const outcome = await written(handOn(db, turns()), BY, [NOTE('one')]);
  FDBObjectStore.prototype.add = add;
  expect(outcome).toMatchObject({ ok: false, issues: [{ code: 'browser/full' }] });
  expect(await db.count('entries')).toBe(0);
  expect(await draftAt(db, JOB, draft.characteristic, draft.place)).toEqual(draft);
});

it('gives a killed tab back what was being typed, the latest first, and forgets it when it is empty', async () => {
  const db = await openDatabase();
  const draft = (text: string, main: string, touched: number): ReadingDraft => ({
    characteristic: 'crank.main-journal',
    place: { main },
    text,
    leaves: {},
    touched,
  });
  await draftKept(db, JOB, draft('2.4', '1', 1));
  await draftKept(db, JOB, draft('2.49', '2', 2));
  await draftKept(db, 'another job', draft('9', '3', 3));
  db.close();
  const after = await openDatabase();
  expect((await draftsOf(after, JOB)).map(({ text }) => text)).toEqual(['2.49', '2.4']);
  await draftKept(after, JOB, draft('', '2', 4));
  expect((await draftsOf(after, JOB)).map(({ text }) => text)).toEqual(['2.4']);
});

it('opens an engine of one’s own without a server and sends its sheet before its entries', async () => {
  const db = await openDatabase();
  const sheet = outlineSheet({ layout: 'inline', cylinders: 4, mains: 3, title: 'The blue one' });
  if (!sheet.ok) throw new Error('no outline');
  const hash = contentHash(sheet.value);
  await written(
    handOn(db, turns()),
    BY,
    [
      { kind: 'job-opened', body: { title: 'The blue one' } },
      { kind: 'spec-adopted', body: { sheet: hash, title: 'The blue one' } },
    ],
    { json: sheet.value, sheet: sheet.value },
  );
  const server = new FakeServer();
  await outboxSent(db, server, turns());
  expect(server.sheets.get(hash)).toEqual(sheet.value);
  const book = foldedBook(server.kept, new Map([[hash, sheet.value]]), readSheet);
  expect(book.opened?.body.title).toBe('The blue one');
  expect(book.characteristics.size).toBe(sheet.value.characteristics.length);
});

it('loses nothing and doubles nothing over two hundred kills of tab and server', async () => {
  const server = new FakeServer();
  const dice = (sides: number): number => random(1)[0]! % sides;
  let acknowledged = 0;
  for (let kill = 0; kill < 200; kill++) {
    // Every round is another page: what only lived in memory is gone.
    const db = await openDatabase();
    if ((await written(handOn(db, turns()), BY, [NOTE(`note ${kill}`)])).ok) acknowledged += 1;
    server.fail = (['no', 'before', 'after', 'full'] as const)[dice(4)]!;
    await outboxSent(db, server, turns());
    if (dice(3) === 0) await entriesFetched(db, server, JOB);
    db.close();
  }
  server.fail = 'no';
  const db = await openDatabase();
  expect(await outboxSent(db, server, turns())).toEqual({ state: 'sent', left: 0 });
  expect(acknowledged).toBe(200);
  expect(new Set(server.kept.map(({ id }) => id)).size).toBe(server.kept.length);
  expect(merged(server.kept, [])).toEqual(await pages(db));
  expect(server.kept.map(({ body }) => body.text).sort()).toEqual(
    Array.from({ length: 200 }, (_, i) => `note ${i}`).sort(),
  );
  expect(chainFaults(server.kept)).toEqual({ forks: [], broken: [] });
});

/** A job with a sheet on a server, and a browser that meets it for the first time. */
async function sheetFromAfar(json: (sheet: SpecSheet) => unknown) {
  const outlined = outlineSheet({ layout: 'inline', cylinders: 2, mains: 3, title: 'Two' });
  if (!outlined.ok) throw new Error('no outline');
  const kept = json(outlined.value);
  const hash = contentHash(kept);
  const db = await openDatabase();
  const server = new FakeServer();
  server.sheets.set(hash, kept);
  const entries = await written(handOn(db, turns()), BY, [
    { kind: 'spec-adopted', body: { sheet: hash, title: 'Two' } },
  ]);
  if (!entries.ok) throw new Error('not written');
  let reads = 0;
  const read: ReadSheet = async (value) => {
    reads += 1;
    return readSheet(value);
  };
  return { db, server, entries: entries.value, hash, kept, read, reads: () => reads };
}

it('shows a sheet by its hash and outline at once, and holds it to every check later, once', async () => {
  const { db, server, entries, hash, kept, read, reads } = await sheetFromAfar((sheet) => sheet);
  const sheets = await sheetsFor(db, server, entries, { byShape: true, read });
  expect([sheets.get(hash), reads()]).toEqual([kept, 0]);
  expect(await sheetsChecked(db, read)).toBe(true);
  expect((await db.get('sheets', hash))?.unchecked).toBeUndefined();
  expect(await sheetsChecked(db, read)).toBe(false);
  expect(reads()).toBe(1);
});

it('does not believe a sheet that is another than the ledger names, or that wants its defaults', async () => {
  const bare = ({ covers: _, ...sheet }: SpecSheet): unknown => sheet;
  const wanting = await sheetFromAfar(bare);
  const { db, server, entries, read, reads } = wanting;
  const sheets = await sheetsFor(db, server, entries, { byShape: true, read });
  expect([sheets.get(wanting.hash)?.covers, reads()]).toEqual([[], 1]);
  expect(sheetByShape(wanting.kept, wanting.hash)).toBeUndefined();
  const whole = readSheet(wanting.kept);
  if (!whole.ok) throw new Error('no sheet');
  expect(sheetByShape(whole.value, wanting.hash)).toBeUndefined();
  expect(sheetByShape(whole.value, contentHash(whole.value))).toEqual(whole.value);
});

it('lets a sheet go that looked right and fails its checks', async () => {
  const { db, server, entries, hash, read } = await sheetFromAfar((sheet) => ({ ...sheet, version: 7 }));
  expect((await sheetsFor(db, server, entries, { byShape: true, read })).has(hash)).toBe(true);
  expect(await sheetsChecked(db, read)).toBe(true);
  expect(await db.get('sheets', hash)).toBeUndefined();
  expect((await sheetsFor(db, server, entries, { byShape: false, read })).has(hash)).toBe(false);
});

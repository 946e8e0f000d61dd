import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type Database, openDatabase } from './database.ts';
import { draftAt, draftKept, draftsOf, type ReadingDraft } from './drafts.ts';

const JOB = '01965c1e-4000-7000-8000-000000000001';
const draft = (text: string, touched: number, main = '1'): ReadingDraft => ({
  characteristic: 'main.journal',
  place: { main },
  text,
  leaves: {},
  touched,
});

/** The plain store of a browser, as far as it is used. */
class PlainStore {
  readonly items = new Map<string, string>();
  get length(): number {
    return this.items.size;
  }
  key = (i: number): string | null => [...this.items.keys()][i] ?? null;
  getItem = (key: string): string | null => this.items.get(key) ?? null;
  setItem = (key: string, text: string): void => void this.items.set(key, text);
  removeItem = (key: string): void => void this.items.delete(key);
}

let plain: PlainStore;
beforeEach(() => {
  plain = new PlainStore();
  Object.assign(globalThis, { indexedDB: new IDBFactory(), localStorage: plain });
});
afterEach(() => {
  Reflect.deleteProperty(globalThis, 'localStorage');
});

/** A tab that is gone before its database has done anything: what it asked for never comes to pass. */
const closing = (): Database =>
  ({ put: () => new Promise(() => {}), delete: () => new Promise(() => {}) }) as unknown as Database;

it('has the last key of a tab that was closed in the instant of it', async () => {
  const db = await openDatabase();
  await draftKept(db, JOB, draft('2.4', 1));
  void draftKept(closing(), JOB, draft('2.49', 2));
  void draftKept(closing(), JOB, draft('1.', 3, '2'));
  expect((await draftAt(db, JOB, 'main.journal', { main: '1' }))?.text).toBe('2.49');
  expect((await draftsOf(db, JOB)).map(({ text }) => text)).toEqual(['1.', '2.49']);
});

it('does not bring back what was entered or emptied in that instant', async () => {
  const db = await openDatabase();
  await draftKept(db, JOB, draft('2.4', 1));
  void draftKept(closing(), JOB, draft('', 1));
  expect(await draftAt(db, JOB, 'main.journal', { main: '1' })).toBeUndefined();
  expect(await draftsOf(db, JOB)).toEqual([]);
});

it('keeps the copy no longer than the database needs, and never over something newer', async () => {
  const db = await openDatabase();
  await draftKept(db, JOB, draft('2.4', 1));
  expect(plain.length).toBe(0);
  void draftKept(closing(), JOB, draft('2.4', 2));
  await draftKept(db, JOB, draft('2.456', 4));
  expect((await draftAt(db, JOB, 'main.journal', { main: '1' }))?.text).toBe('2.456');
  expect(plain.length).toBe(0);
});

it('does without a plain store, or with one that is full', async () => {
  const db = await openDatabase();
  plain.setItem = () => {
    throw new DOMException('full', 'QuotaExceededError');
  };
  await draftKept(db, JOB, draft('2.4', 1));
  Reflect.deleteProperty(globalThis, 'localStorage');
  await draftKept(db, JOB, draft('2.5', 2));
  expect((await draftAt(db, JOB, 'main.journal', { main: '1' }))?.text).toBe('2.5');
});

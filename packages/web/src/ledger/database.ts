import type { Entry, SpecSheet } from '@fettle/book';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

/** An entry that this browser wrote and that no server has said it keeps. */
export interface Unsent {
  readonly id: string;
  readonly job: string;
  readonly n: number;
  /** Why the server would not take it; it stays here all the same. */
  readonly refused?: string;
}

/** An entry beside another of the same id, told by its hash. */
interface ReusedId {
  readonly id: string;
  readonly hash: string;
  readonly job: string;
  readonly entry: Entry;
}

/** A spec sheet as it was kept by its hash, and as it was read. */
interface KeptSheet {
  readonly hash: string;
  readonly json: unknown;
  readonly sheet: SpecSheet;
  /** Written here and not yet sent. */
  readonly unsent?: boolean;
  /** Known by its hash and outline only; every check of a sheet is still to come. */
  readonly unchecked?: boolean;
}

interface KnownJob {
  readonly job: string;
  readonly title: string;
  /** How far this server's sequence has been fetched. */
  readonly after: number;
}

interface Kept extends DBSchema {
  entries: { key: string; value: Entry; indexes: { job: string } };
  /** Other entries under the id of one that is here: both are kept. */
  reused: { key: [string, string]; value: ReusedId; indexes: { job: string } };
  outbox: { key: string; value: Unsent; indexes: { job: string } };
  sheets: { key: string; value: KeptSheet };
  jobs: { key: string; value: KnownJob };
  drafts: { key: string; value: unknown };
  settings: { key: string; value: unknown };
}

/** Every entry of a job that is here. */
export async function entriesOf(db: Database, job: string): Promise<Entry[]> {
  const [entries, others] = await Promise.all([
    db.getAllFromIndex('entries', 'job', job),
    db.getAllFromIndex('reused', 'job', job),
  ]);
  return [...entries, ...others.map(({ entry }) => entry)];
}

export type Database = IDBPDatabase<Kept>;

/** The ledger of this browser profile. */
export const openDatabase = (name = 'fettle'): Promise<Database> =>
  openDB<Kept>(name, 2, {
    upgrade(db, from) {
      if (from < 2) db.createObjectStore('reused', { keyPath: ['id', 'hash'] }).createIndex('job', 'job');
      if (from >= 1) return;
      db.createObjectStore('entries', { keyPath: 'id' }).createIndex('job', 'job');
      db.createObjectStore('outbox', { keyPath: 'id' }).createIndex('job', 'job');
      db.createObjectStore('sheets', { keyPath: 'hash' });
      db.createObjectStore('jobs', { keyPath: 'job' });
      db.createObjectStore('drafts');
      db.createObjectStore('settings');
    },
    // Another tab brings a newer edition: let it, rather than hold it up.
    blocking: (_now, _wanted, event) => (event.target as IDBDatabase).close(),
  });

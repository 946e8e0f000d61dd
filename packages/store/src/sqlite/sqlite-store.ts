import { contentHash, type Entry } from '@fettle/book';
import Database from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import {
  type AdmittedEntry,
  admittedEntry,
  admittedPhoto,
  admittedSheet,
  hashOfBytes,
} from '../admission.ts';
import { failed, type Issue, type Outcome, ok } from '../outcome.ts';
import type { Appended, NamedPhoto, Parcel, Store } from '../store.ts';
import { faultOf, faultsAsIssues } from './fault.ts';
import { migrated } from './migrating.ts';
import type { Tables } from './tables.ts';
import { inOneWrite } from './transaction.ts';

/** How long a statement waits for another process [ms]. Transactions here are short. */
const BUSY_TIMEOUT = 5000;
/** Rows in one statement; SQLite takes 32766 values. */
const ROWS = 500;
/** More than these say nothing new about one parcel. */
const MOST_ISSUES = 50;

/** Opens the database in a file, which is made when missing; its directory must exist. */
export async function openSqliteStore(path: string): Promise<Outcome<Store>> {
  let database: Database.Database | undefined;
  try {
    database = new Database(path, { timeout: BUSY_TIMEOUT });
    database.pragma('journal_mode = WAL');
    // An acknowledged entry is on the disk: FULL costs a third of a millisecond a commit.
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });
    const ready = await migrated(db, path);
    if (!ready.ok) {
      await db.destroy();
      return ready;
    }
    return ok(storeOn(db, path));
  } catch (error) {
    database?.close();
    if (error instanceof TypeError && /directory does not exist/.test(error.message))
      return failed({
        code: 'store/cannot-open',
        at: path,
        got: 'a directory that does not exist',
        wanted: 'a directory that exists',
        message: `The directory of ${path} does not exist. Make it, or choose another data directory.`,
      });
    return failed(faultOf(error, path));
  }
}

function storeOn(db: Kysely<Tables>, path: string): Store {
  const guarded = <T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> => faultsAsIssues(path, work);
  const append = (parcel: Parcel): Promise<Outcome<Appended>> =>
    guarded(async () => {
      const admitted = admittedParcel(parcel);
      if (!admitted.ok) return admitted;
      return inOneWrite(db, (trx) => keptParcel(trx, admitted.value));
    });

  return {
    append,
    jobs: () =>
      guarded(async () => {
        const rows = await db
          .selectFrom('entry')
          .select((of) => ['job', of.fn.countAll<number>().as('entries')])
          .groupBy('job')
          .orderBy((of) => of.fn.min('sequence'))
          .execute();
        return ok(rows);
      }),
    entries: (job, { after = 0 } = {}) =>
      guarded(async () => {
        const rows = await db
          .selectFrom('entry')
          .select(['sequence', 'text'])
          .where('job', '=', job)
          .where('sequence', '>', after)
          .orderBy('sequence')
          .execute();
        const entries: Entry[] = [];
        for (const row of rows) {
          const entry = parsed<Entry>(row.text, `${path}, entry ${row.sequence}`);
          if (!entry.ok) return entry;
          entries.push(entry.value);
        }
        return ok({ entries, last: rows.at(-1)?.sequence ?? after });
      }),
    putSheet: async (hash, json) => {
      const kept = await append({ sheets: [{ hash, json }] });
      return kept.ok ? ok(hash) : kept;
    },
    sheet: (hash) =>
      guarded(async () => {
        const row = await db.selectFrom('sheet').select('text').where('hash', '=', hash).executeTakeFirst();
        return row ? parsed(row.text, `${path}, sheet ${hash}`) : ok(undefined);
      }),
    putPhoto: async (bytes, media) => {
      const hash = hashOfBytes(bytes);
      const kept = await append({ photos: [{ hash, media, bytes }] });
      return kept.ok ? ok(hash) : kept;
    },
    photo: (hash) =>
      guarded(async () => {
        const row = await db
          .selectFrom('photo')
          .select(['media', 'bytes'])
          .where('hash', '=', hash)
          .executeTakeFirst();
        // A plain array of bytes, so that no database's own kind of buffer reaches the caller.
        return ok(row && { media: row.media, bytes: new Uint8Array(row.bytes) });
      }),
    close: () => db.destroy(),
  };
}

interface AdmittedParcel {
  readonly entries: readonly AdmittedEntry[];
  readonly sheets: readonly { hash: string; text: string }[];
  readonly photos: readonly NamedPhoto[];
}

function admittedParcel(parcel: Parcel): Outcome<AdmittedParcel> {
  const issues: Issue[] = [];
  /** The admitted of one list; what is wrong with the others goes to `issues`, told by its place in the list. */
  const admittedOf = <T, U>(list: string, values: readonly T[], admit: (value: T) => Outcome<U>): U[] =>
    values.flatMap((value, index) => {
      const outcome = admit(value);
      if (outcome.ok) return [outcome.value];
      issues.push(...outcome.issues.map((issue) => ({ ...issue, at: `/${list}/${index}${issue.at}` })));
      return [];
    });
  const entries = admittedOf('entries', parcel.entries ?? [], admittedEntry);
  const sheets = admittedOf('sheets', parcel.sheets ?? [], (sheet) => {
    const text = admittedSheet(sheet);
    return text.ok ? ok({ hash: sheet.hash, text: text.value }) : text;
  });
  const photos = admittedOf('photos', parcel.photos ?? [], admittedPhoto);
  return issues.length > 0 ? failed(...issues.slice(0, MOST_ISSUES)) : ok({ entries, sheets, photos });
}

/** The key of a row: the id of its entry, with its hash where another entry went by that id before. */
const rowKey = ({ entry }: AdmittedEntry, isFirst: boolean): string =>
  isFirst ? entry.id : `${entry.id}/${contentHash(entry)}`;

async function keptParcel(trx: Kysely<Tables>, parcel: AdmittedParcel): Promise<Outcome<Appended>> {
  const keys = parcel.entries.flatMap((one) => [rowKey(one, true), rowKey(one, false)]);
  const rows = new Map<string, { job: string; text: string }>();
  for (const some of inRows(keys)) {
    const found = await trx
      .selectFrom('entry')
      .select(['id', 'job', 'text'])
      .where('id', 'in', some)
      .execute();
    for (const { id, job, text } of found) rows.set(id, { job, text });
  }
  const added: { key: string; of: AdmittedEntry }[] = [];
  const [known, reused] = [new Set<string>(), new Set<string>()];
  const issues: Issue[] = [];
  for (const [index, of] of parcel.entries.entries()) {
    const { entry, text } = of;
    const first = rows.get(rowKey(of, true));
    if (first?.text === text || rows.has(rowKey(of, false))) {
      known.add(entry.id);
      continue;
    }
    if (first && first.job !== entry.job) {
      issues.push(idOfOtherJob(entry, `/entries/${index}`));
      continue;
    }
    if (first) reused.add(entry.id);
    const key = rowKey(of, !first);
    rows.set(key, { job: entry.job, text });
    added.push({ key, of });
  }
  if (issues.length > 0) return failed(...issues.slice(0, MOST_ISSUES));
  for (const rows of inRows(added))
    await trx
      .insertInto('entry')
      .values(rows.map(({ key, of: { entry, text } }) => ({ id: key, job: entry.job, text })))
      .execute();
  for (const rows of inRows(parcel.sheets))
    await trx
      .insertInto('sheet')
      .values(rows)
      .onConflict((same) => same.doNothing())
      .execute();
  for (const { hash, media, bytes } of parcel.photos)
    await trx
      .insertInto('photo')
      .values({ hash, media, bytes })
      .onConflict((same) => same.doNothing())
      .execute();
  const fresh = new Set(added.map(({ of }) => of.entry.id));
  return ok({ added: [...fresh], known: [...known].filter((id) => !fresh.has(id)), reused: [...reused] });
}

function idOfOtherJob(entry: Entry, at: string): Issue {
  return {
    code: 'entry/id-reused',
    at,
    got: `the id ${entry.id}, which an entry of another job has`,
    wanted: 'a new id for a new entry',
    message: `Entry ${entry.id} is already in the store, in another job. Nothing was kept; give it an id of its own where it was written.`,
  };
}

function inRows<T>(values: readonly T[]): T[][] {
  const rows: T[][] = [];
  for (let from = 0; from < values.length; from += ROWS) rows.push(values.slice(from, from + ROWS));
  return rows;
}

function parsed<T>(text: string, at: string): Outcome<T> {
  try {
    return ok(JSON.parse(text) as T);
  } catch {
    return failed({
      code: 'store/damaged',
      at,
      got: text.slice(0, 60),
      wanted: 'JSON',
      message: `${at} is no longer JSON: the database was changed by something else. Restore it from a backup or an archive.`,
    });
  }
}

// Folding a ledger, and keeping it: what each entry costs beside the plainest way to handle it.
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { foldedBook, readSheet } from '@fettle/book';
import { openSqliteStore } from '@fettle/store';
import { sampleLedger } from './sample-ledger.mjs';
import { compared } from './side-by-side.mjs';

export async function folding() {
  for (const count of [1000, 10_000]) {
    const entries = sampleLedger(count);
    const text = JSON.stringify(entries);
    await compared(
      `Folding ${count} entries, per entry`,
      {
        'JSON.parse of the same entries': { run: () => JSON.parse(text), calls: count },
        foldedBook: { run: () => foldedBook(entries, new Map(), readSheet), calls: count },
      },
      { rounds: 9 },
    );
  }
}

const PER_ROUND = 50;
const ROUNDS = 9;

export async function keeping() {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-bench-'));
  const entries = sampleLedger(60_000);
  let used = 0;
  const take = (count) => {
    if (used + count > entries.length) throw new Error('the sample ledger is used up');
    used += count;
    return entries.slice(used - count, used);
  };
  const opened = await openSqliteStore(join(folder, 'store.sqlite'));
  if (!opened.ok) throw new Error(opened.issues[0].message);
  const store = opened.value;
  const raw = rawDatabase(join(folder, 'raw.sqlite'));
  const append = async (parcel) => {
    const kept = await store.append({ entries: parcel });
    if (!kept.ok) throw new Error(kept.issues[0].message);
  };
  try {
    await compared(
      `Keeping ${PER_ROUND} entries in SQLite, synchronous FULL, per entry`,
      {
        'raw better-sqlite3, one transaction': { run: () => raw.together(take(PER_ROUND)), calls: PER_ROUND },
        'raw better-sqlite3, each by itself': {
          run: () => take(PER_ROUND).forEach(raw.alone),
          calls: PER_ROUND,
        },
        'the store, one append': { run: () => append(take(PER_ROUND)), calls: PER_ROUND },
        'the store, an append each': {
          run: async () => {
            for (const entry of take(PER_ROUND)) await append([entry]);
          },
          calls: PER_ROUND,
        },
      },
      { rounds: ROUNDS, least: 5 },
    );
  } finally {
    raw.close();
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The same table and the same care for what is acknowledged, without reading what comes in. */
function rawDatabase(path) {
  const Database = createRequire(new URL('../packages/store/package.json', import.meta.url))(
    'better-sqlite3',
  );
  const db = new Database(path);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.exec(
    'create table entry (sequence integer primary key autoincrement, id text not null unique, job text not null, text text not null) strict; create index entry_of_job on entry (job, sequence)',
  );
  const insert = db.prepare('insert into entry (id, job, text) values (?, ?, ?)');
  const alone = (entry) => insert.run(entry.id, entry.job, JSON.stringify(entry));
  return { alone, together: db.transaction((entries) => entries.forEach(alone)), close: () => db.close() };
}

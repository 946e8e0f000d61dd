import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesOf, goodValue } from '../testing/outcomes.ts';
import { JOB, sampleLedger } from '../testing/sample-ledger.ts';
import { openSqliteStore } from './sqlite-store.ts';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-sqlite-'));
  file = join(folder, 'fettle.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true }));

it('keeps entries from one opening to the next', async () => {
  const ledger = sampleLedger(['a', 'b']);
  const first = goodValue(await openSqliteStore(file));
  goodValue(await first.append({ entries: ledger }));
  await first.close();
  const second = goodValue(await openSqliteStore(file));
  expect(goodValue(await second.entries(JOB)).entries).toEqual(ledger);
  await second.close();
});

it('writes ahead, so that a reader in another connection is not kept waiting by a writer', async () => {
  const store = goodValue(await openSqliteStore(file));
  const writer = new Database(file);
  expect(writer.pragma('journal_mode', { simple: true })).toBe('wal');
  writer.exec('begin immediate');
  expect(goodValue(await store.jobs())).toEqual([]);
  writer.close();
  await store.close();
});

it('leaves a file that is no database as it is', async () => {
  writeFileSync(file, 'characteristic,lower,upper\n'.repeat(100));
  const before = readFileSync(file);
  expect(codesOf(await openSqliteStore(file))).toEqual(['store/not-a-database']);
  expect(readFileSync(file)).toEqual(before);
});

it("leaves another program's database as it is", async () => {
  const other = new Database(file);
  other.exec('create table recipe (name text)');
  other.close();
  expect(codesOf(await openSqliteStore(file))).toEqual(['store/of-another-program']);
  const after = new Database(file);
  expect(after.prepare('select name from sqlite_schema').pluck().all()).toEqual(['recipe']);
  after.close();
});

it('says so when pages of the database were overwritten', async () => {
  const store = goodValue(await openSqliteStore(file));
  goodValue(
    await store.append({ entries: sampleLedger(Array.from({ length: 300 }, (_, n) => `note ${n}`)) }),
  );
  await store.close();
  const bytes = readFileSync(file);
  bytes.fill(0xaa, 2 * 4096);
  writeFileSync(file, bytes);
  const damaged = await openSqliteStore(file);
  const codes = damaged.ok ? codesOf(await damaged.value.entries(JOB)) : codesOf(damaged);
  expect(codes).toEqual(['store/damaged']);
  if (damaged.ok) await damaged.value.close();
});

it('says so when the text of an entry is no longer JSON', async () => {
  const store = goodValue(await openSqliteStore(file));
  goodValue(await store.append({ entries: sampleLedger(['a']) }));
  const other = new Database(file);
  other.exec('update entry set text = substr(text, 5)');
  other.close();
  expect(await store.entries(JOB)).toMatchObject({ ok: false, issues: [{ code: 'store/damaged' }] });
  await store.close();
});

it('asks for a directory that exists', async () => {
  expect(codesOf(await openSqliteStore(join(folder, 'none', 'fettle.sqlite')))).toEqual([
    'store/cannot-open',
  ]);
});

it('answers a folder in place of the database with an issue', async () => {
  expect(codesOf(await openSqliteStore(folder))).toEqual(['store/cannot-open']);
});

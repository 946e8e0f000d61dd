import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesOf, goodValue } from '../testing/outcomes.ts';
import { sampleLedger } from '../testing/sample-ledger.ts';
import { migrated } from './migrating.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { openSqliteStore } from './sqlite-store.ts';
import type { Tables } from './tables.ts';

const HERE = new URL('.', import.meta.url);
let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-migrating-'));
  file = join(folder, 'fettle.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true }));

/** The schema as SQLite has it, one statement a paragraph. */
function schemaIn(path: string): string {
  const db = new Database(path, { readonly: true });
  const statements = db
    .prepare("select sql from sqlite_schema where sql is not null and name not like 'sqlite_%' order by name")
    .pluck()
    .all();
  db.close();
  return `${statements.map((statement) => `${String(statement).replaceAll(/\s+/g, ' ')};`).join('\n')}\n`;
}

it('builds the saved schema from the migrations', async () => {
  await goodValue(await openSqliteStore(file)).close();
  expect(schemaIn(file)).toBe(readFileSync(new URL('schema.snapshot.sql', HERE), 'utf8'));
});

it('has not edited a released migration, and knows each one by its file', () => {
  const released = JSON.parse(readFileSync(new URL('migrations/released.json', HERE), 'utf8')) as Record<
    string,
    string
  >;
  const files = readdirSync(new URL('migrations/', HERE))
    .filter((name) => /^\d{4}-/.test(name))
    .sort();
  const hashes = files.map((name) => [
    name,
    createHash('sha256')
      .update(readFileSync(new URL(`migrations/${name}`, HERE)))
      .digest('hex'),
  ]);
  expect(Object.fromEntries(hashes)).toEqual(released);
  expect(files).toEqual(
    MIGRATIONS.map(({ number, name }) => `${String(number).padStart(4, '0')}-${name}.ts`),
  );
  expect(MIGRATIONS.map(({ number }) => number)).toEqual(MIGRATIONS.map((_, index) => index + 1));
});

it('brings an older database up and keeps what is in it', async () => {
  const ledger = sampleLedger(['a', 'b']);
  const store = goodValue(await openSqliteStore(file));
  goodValue(await store.append({ entries: ledger }));
  await store.close();
  const later = {
    number: MIGRATIONS.length + 1,
    name: 'add-later',
    statements: ['create table later (a text) strict'],
  };
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: new Database(file) }) });
  goodValue(await migrated(db, file, [...MIGRATIONS, later]));
  expect(await db.selectFrom('entry').select('id').execute()).toEqual(ledger.map(({ id }) => ({ id })));
  await db.destroy();
  expect(schemaIn(file)).toContain('TABLE later (a text)');
  // The program before that migration now meets a newer database, and leaves it alone.
  const before = readFileSync(file);
  expect(codesOf(await openSqliteStore(file))).toEqual(['store/newer']);
  expect(readFileSync(file)).toEqual(before);
});

it('undoes a migration that fails half way', async () => {
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: new Database(file) }) });
  const torn = { number: 1, name: 'torn', statements: ['create table half (a text)', 'create nonsense'] };
  await expect(migrated(db, file, [torn])).rejects.toThrow(/syntax error/);
  await db.destroy();
  expect(schemaIn(file)).toBe('\n');
});

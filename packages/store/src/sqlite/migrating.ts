import { type Kysely, sql } from 'kysely';
import { failed, type Outcome, ok } from '../outcome.ts';
import { MIGRATIONS } from './migrations/index.ts';
import type { Migration } from './migrations/migration.ts';
import type { Tables } from './tables.ts';
import { inOneWrite } from './transaction.ts';

/** Marks the file as ours in its header ("FETL"), so that another program's database is not written into. */
const APPLICATION_ID = 0x4645544c;

/** The tables are there and as new as this program; several processes may do this at the same time. */
export async function migrated(
  db: Kysely<Tables>,
  path: string,
  migrations: readonly Migration[] = MIGRATIONS,
): Promise<Outcome<void>> {
  const ours = await belongsToUs(db, path);
  if (!ours.ok) return ours;
  const newest = migrations.at(-1)?.number ?? 0;
  const present = await numberPresent(db);
  if (present > newest) return tooNew(path, present, newest);
  if (present === newest) return ok(undefined);
  return inOneWrite(db, async (trx) => {
    await sql`create table if not exists migration (number integer primary key, name text not null) strict`.execute(
      trx,
    );
    // Asked again: another process may have been here since.
    const already = await numberPresent(trx);
    if (already > newest) return tooNew(path, already, newest);
    for (const migration of migrations) {
      if (migration.number <= already) continue;
      for (const statement of migration.statements) await sql.raw(statement).execute(trx);
      await trx.insertInto('migration').values({ number: migration.number, name: migration.name }).execute();
    }
    await sql.raw(`pragma application_id = ${APPLICATION_ID}`).execute(trx);
    return ok(undefined);
  });
}

async function numberPresent(db: Kysely<Tables>): Promise<number> {
  const table = await sql`select 1 from sqlite_schema where name = 'migration'`.execute(db);
  if (table.rows.length === 0) return 0;
  const row = await db
    .selectFrom('migration')
    .select((of) => of.fn.max('number').as('number'))
    .executeTakeFirst();
  return row?.number ?? 0;
}

async function belongsToUs(db: Kysely<Tables>, path: string): Promise<Outcome<void>> {
  const marks = await sql<{ application_id: number }>`pragma application_id`.execute(db);
  const tables = await sql<{ name: string }>`select name from sqlite_schema limit 1`.execute(db);
  if (marks.rows[0]?.application_id === APPLICATION_ID || tables.rows.length === 0) return ok(undefined);
  return failed({
    code: 'store/of-another-program',
    at: path,
    got: `a database of another program, with a table ${tables.rows[0]?.name}`,
    wanted: 'a database made by fettle, or no file',
    message: `${path} is another program's database and was left as it is. Choose another data directory.`,
  });
}

function tooNew(path: string, present: number, newest: number): Outcome<never> {
  return failed({
    code: 'store/newer',
    at: path,
    got: `schema ${present}`,
    wanted: `schema ${newest} or older`,
    message: `${path} was written by a newer fettle (schema ${present}; this one knows ${newest}). Use the newer program; nothing was changed.`,
  });
}

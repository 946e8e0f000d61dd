import { type Kysely, sql } from 'kysely';
import type { Outcome } from '../outcome.ts';
import type { Tables } from './tables.ts';

/**
 * Everything `work` does, or nothing when it answers with issues or throws.
 * Begun as a write: a transaction that begins by reading may find, when it comes to write, that it read too early.
 */
export async function inOneWrite<T>(
  db: Kysely<Tables>,
  work: (trx: Kysely<Tables>) => Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  return db.connection().execute(async (connection) => {
    await sql`begin immediate`.execute(connection);
    let outcome: Outcome<T>;
    try {
      outcome = await work(connection);
      await (outcome.ok ? sql`commit` : sql`rollback`).execute(connection);
    } catch (error) {
      // SQLite has rolled back by itself after some errors; a second rollback is then refused, which is no news.
      await sql`rollback`.execute(connection).catch(() => undefined);
      throw error;
    }
    return outcome;
  });
}

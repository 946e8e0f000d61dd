import type { Generated } from 'kysely';

/** The schema as queries see it; schema.snapshot.sql is the schema as SQLite sees it. */
export interface Tables {
  entry: { sequence: Generated<number>; id: string; job: string; text: string };
  sheet: { hash: string; text: string };
  photo: { hash: string; media: string; bytes: Uint8Array };
  migration: { number: number; name: string };
}

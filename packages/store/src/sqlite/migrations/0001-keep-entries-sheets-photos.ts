import type { Migration } from './migration.ts';

/** `sequence` is never used again for another entry (autoincrement), since readers ask for what is after it. */
export const keepEntriesSheetsPhotos: Migration = {
  number: 1,
  name: 'keep-entries-sheets-photos',
  statements: [
    `create table entry (
      sequence integer primary key autoincrement,
      id text not null unique,
      job text not null,
      text text not null
    ) strict`,
    'create index entry_of_job on entry (job, sequence)',
    'create table sheet (hash text primary key, text text not null) strict',
    'create table photo (hash text primary key, media text not null, bytes blob not null) strict',
  ],
};

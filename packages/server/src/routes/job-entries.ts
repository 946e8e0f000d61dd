import { type Book, type Entry, foldedBook, readSheet, type SpecSheet } from '@fettle/book';
import type { Issue } from '@fettle/core';
import type { Parts } from '../parts.ts';
import { given, refusalOf } from '../problem.ts';

const unknownJob = (job: string): Issue => ({
  code: 'job/unknown',
  at: 'id',
  got: job,
  wanted: 'a job in this data directory',
  message: `There is no job ${job} here. List the jobs and choose one of them.`,
});

/** Every entry of a job; 404 when there is no such job. */
export async function jobEntries({ directory }: Parts, job: string): Promise<readonly Entry[]> {
  const { entries } = given(await directory.store.entries(job));
  if (entries.length === 0) throw refusalOf([unknownJob(job)]);
  return entries;
}

/** A job folded, with the spec sheets that are here. */
export async function jobBook(parts: Parts, job: string): Promise<Book> {
  const entries = await jobEntries(parts, job);
  const sheets = new Map<string, SpecSheet>();
  for (const { kind, body } of entries) {
    if (kind !== 'spec-adopted' || sheets.has(String(body.sheet))) continue;
    const json = given(await parts.directory.store.sheet(String(body.sheet)));
    if (json !== undefined) sheets.set(String(body.sheet), given(readSheet(json)));
  }
  return foldedBook(entries, sheets, readSheet);
}

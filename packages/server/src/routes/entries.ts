import type { Issue } from '@fettle/core';
import type { OpenAPIHono } from '@hono/zod-openapi';
import { jsonOf, LIMITS } from '../body.ts';
import type { Parts } from '../parts.ts';
import { given, refusalOf } from '../problem.ts';
import {
  afterQuery,
  anyList,
  appendedAnswer,
  entriesAnswer,
  entriesAppended,
  jobPath,
  parcel,
} from '../schemas.ts';
import { documented, ENTRIES, read } from './documented.ts';
import { jobEntries } from './job-entries.ts';

/**
 * Entries come with their device, page and chain already: appending them is one transaction of the store and needs no
 * turn as the writer, which only those take who write the next page of the data directory itself.
 */
export function entryRoutes(app: OpenAPIHono, parts: Parts): void {
  const { directory, index } = parts;
  documented(app, {
    method: 'get',
    path: '/api/jobs/{id}/entries',
    summary: 'Entries of a job as the ledger has them, in order of arrival',
    params: jobPath,
    query: afterQuery,
    answers: { 200: { says: 'The entries', content: { 'application/json': entriesAnswer } } },
    handler: async (c, { params, query }) => {
      const found = given(await directory.store.entries(params.id, { after: query.after ?? 0 }));
      // Nothing new is an answer only where there is something.
      if (found.entries.length === 0) await jobEntries(parts, params.id);
      return c.json(found);
    },
  });
  documented(app, {
    method: 'post',
    path: '/api/jobs/{id}/entries',
    summary: 'Appends entries: all or nothing, idempotent by id',
    params: jobPath,
    body: { 'application/json': ENTRIES },
    answers: {
      200: { says: 'Ids by what became of them', content: { 'application/json': entriesAppended } },
    },
    handler: async (c, { params: { id } }) => {
      const entries = read(anyList, await jsonOf(c, LIMITS.entries));
      const strangers = entries.flatMap((entry, i) => ofOtherJob(entry, i, id));
      if (strangers.length > 0) throw refusalOf(strangers.slice(0, 20));
      const isOpening = entries.some((entry) => kindOf(entry) === 'job-opened');
      if (!isOpening) await jobEntries(parts, id);
      const kept = given(await directory.store.append({ entries }));
      const job = given(await index.refreshed()).find((known) => known.id === id);
      return c.json({ ...kept, last: job?.last ?? 0 });
    },
  });
  documented(app, {
    method: 'post',
    path: '/api/parcel',
    summary: 'Appends entries of any job with the spec sheets they name: all or nothing',
    body: { 'application/json': parcel },
    answers: {
      200: { says: 'Ids by what became of them', content: { 'application/json': appendedAnswer } },
    },
    handler: async (c) => {
      const { entries = [], sheets = [] } = read(parcel, await jsonOf(c, LIMITS.parcel));
      const kept = given(await directory.store.append({ entries, sheets }));
      given(await index.refreshed());
      return c.json(kept);
    },
  });
}

const kindOf = (entry: unknown): unknown => (entry as { kind?: unknown } | null)?.kind;

/** An entry of another job than the one it was sent to; what is no entry at all the store will say. */
function ofOtherJob(entry: unknown, index: number, job: string): Issue[] {
  const of = (entry as { job?: unknown } | null)?.job;
  if (typeof of !== 'string' || of === job) return [];
  return [
    {
      code: 'entry/other-job',
      at: `/entries/${index}/job`,
      got: of.slice(0, 60),
      wanted: job,
      message: `Entry ${index} is of job ${of.slice(0, 60)}, but was sent to ${job}. Nothing was kept; send it to its own job.`,
    },
  ];
}

import { createHash } from 'node:crypto';
import type { Entry } from '@fettle/book';
import { type Outcome, ok } from '@fettle/core';
import type { Appended, Parcel, Photo, Store } from '@fettle/store';
import type { Running } from '../running.ts';
import { called, jsonIn } from './server-calls.ts';

/** The store of a data directory as the server that holds it has it. */
export function remoteStore(running: Pick<Running, 'address' | 'secret'>): Store {
  /** The JSON at a path, or `nothing` where there is none. */
  const json = async <T>(method: string, path: string, nothing: T, value?: unknown): Promise<Outcome<T>> => {
    const body =
      value === undefined ? undefined : { media: 'application/json', bytes: JSON.stringify(value) };
    const answer = await called(running, method, path, body);
    if (!answer.ok) return answer;
    return answer.value ? jsonIn<T>(answer.value, running.address) : ok(nothing);
  };
  const photoPut = async (hash: string, media: string, bytes: Uint8Array): Promise<Outcome<string>> => {
    const kept = await called(running, 'PUT', `api/photos/${hash}`, { media, bytes });
    return kept.ok ? ok(hash) : kept;
  };
  /** Photos first: one that nothing names yet does no harm, an entry without its photo would. */
  const append = async ({ entries = [], sheets = [], photos = [] }: Parcel): Promise<Outcome<Appended>> => {
    for (const { hash, media, bytes } of photos) {
      const kept = await photoPut(hash, media, bytes);
      if (!kept.ok) return kept;
    }
    return json<Appended>('POST', 'api/parcel', { added: [], known: [], reused: [] }, { entries, sheets });
  };

  return {
    append,
    jobs: async () => {
      const jobs = await json<readonly { id: string; entries: number }[]>('GET', 'api/jobs', []);
      return jobs.ok ? ok(jobs.value.map(({ id, entries }) => ({ job: id, entries }))) : jobs;
    },
    entries: (job, { after = 0 } = {}) =>
      json<{ entries: Entry[]; last: number }>(
        'GET',
        `api/jobs/${encodeURIComponent(job)}/entries?after=${after}`,
        { entries: [], last: after },
      ),
    putSheet: async (hash, sheet) => {
      const kept = await append({ sheets: [{ hash, json: sheet }] });
      return kept.ok ? ok(hash) : kept;
    },
    sheet: (hash) => json<unknown>('GET', `api/sheets/${hash}`, undefined),
    putPhoto: (bytes, media) => photoPut(createHash('sha256').update(bytes).digest('hex'), media, bytes),
    photo: async (hash): Promise<Outcome<Photo | undefined>> => {
      const answer = await called(running, 'GET', `api/photos/${hash}`);
      if (!answer.ok) return answer;
      if (!answer.value) return ok(undefined);
      const media = answer.value.headers.get('content-type') ?? 'application/octet-stream';
      return ok({ media, bytes: new Uint8Array(await answer.value.arrayBuffer()) });
    },
    close: async () => {},
  };
}

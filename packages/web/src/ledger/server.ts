import type { Entry } from '@fettle/book';
import type { Issue } from '@fettle/core';

/** What a server said, or that none answered. `refused` is final until something is changed; the others pass. */
export type Answer<T> =
  | { readonly state: 'done'; readonly value: T }
  | { readonly state: 'refused'; readonly issues: readonly Issue[] }
  | { readonly state: 'unable'; readonly words: string }
  | { readonly state: 'stranger' }
  | { readonly state: 'offline' };

interface ListedJob {
  readonly id: string;
  readonly title: string;
  readonly entries: number;
}

/** What the ledger asks of a server; everything here may be asked twice without harm. */
export interface Server {
  jobs(): Promise<Answer<readonly ListedJob[]>>;
  entriesAfter(
    job: string,
    after: number,
  ): Promise<Answer<{ readonly entries: readonly Entry[]; readonly last: number }>>;
  send(job: string, entries: readonly Entry[]): Promise<Answer<unknown>>;
  sheet(hash: string): Promise<Answer<unknown>>;
  sendSheet(hash: string, json: unknown): Promise<Answer<unknown>>;
  sendPhoto(hash: string, picture: Blob): Promise<Answer<unknown>>;
}

type Fetch = (path: string, init?: RequestInit) => Promise<Response>;

/** A server that does not answer within this is as good as absent: the bench does not wait for it. */
const PATIENCE_MS = 15_000;

/** The issues of a problem document (RFC 9457), or one made of its title. */
function issuesIn(problem: unknown, status: number): Issue[] {
  const said = (typeof problem === 'object' && problem !== null ? problem : {}) as {
    issues?: readonly Issue[];
    title?: string;
    detail?: string;
    code?: string;
  };
  if (Array.isArray(said.issues) && said.issues.length > 0) return said.issues as Issue[];
  const message = said.detail ?? said.title ?? `The server answered ${status}.`;
  return [
    {
      code: said.code ?? `server/${status}`,
      at: '',
      got: String(status),
      wanted: 'an entry it keeps',
      message,
    },
  ];
}

async function answered<T>(fetch: Fetch, path: string, init?: RequestInit): Promise<Answer<T>> {
  let response: Response;
  try {
    response = await fetch(path, { ...init, signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    return { state: 'offline' };
  }
  const body = await response.json().catch(() => undefined);
  if (response.ok) return { state: 'done', value: body as T };
  if (response.status === 401 || response.status === 403) return { state: 'stranger' };
  const issues = issuesIn(body, response.status);
  // 429 and what the server cannot do just now are tried again; the rest would be refused again.
  if (response.status >= 500 || response.status === 429 || response.status === 408)
    return { state: 'unable', words: issues[0]!.message };
  return { state: 'refused', issues };
}

const json = (method: string, value: unknown): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(value),
});

/** The server this page came from. */
export function serverAt(fetch: Fetch, base = '/api'): Server {
  const entries = (job: string): string => `${base}/jobs/${encodeURIComponent(job)}/entries`;
  return {
    jobs: () => answered(fetch, `${base}/jobs`),
    entriesAfter: (job, after) => answered(fetch, `${entries(job)}?after=${after}`),
    send: (job, list) => answered(fetch, entries(job), json('POST', list)),
    sheet: (hash) => answered(fetch, `${base}/sheets/${hash}`),
    sendSheet: (hash, sheet) => answered(fetch, `${base}/sheets/${hash}`, json('PUT', sheet)),
    sendPhoto: (hash, picture) =>
      answered(fetch, `${base}/photos/${hash}`, {
        method: 'PUT',
        headers: { 'content-type': picture.type },
        body: picture,
      }),
  };
}

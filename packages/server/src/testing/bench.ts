import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Entry, newEntryId, nextEntry } from '@fettle/book';
import { type DataDirectory, openDataDirectory } from '@fettle/store';
import type { Access, Peer } from '../access/access.ts';
import { Pairing } from '../access/pairing.ts';
import { type AppOptions, createApp } from '../app.ts';
import type { Report } from '../report.ts';

export const SECRET = 'a-secret-of-the-tests-that-is-long-enough';
export const HOST = '127.0.0.1:4173';
const DESK: Peer = { remote: '127.0.0.1', local: '127.0.0.1' };

/** A server without a socket on a data directory of its own, with a clock and a peer that a test can turn. */
export interface TestBench {
  readonly path: string;
  readonly directory: DataDirectory;
  readonly access: Access;
  readonly faults: unknown[];
  clock: number;
  peer: Peer;
  ask(path: string, init?: RequestInit): Promise<Response>;
  json(path: string, method?: string, value?: unknown): Promise<{ status: number; body: unknown }>;
  close(): Promise<void>;
}

/** Pages that say what they were made of. */
export const spokenReport: Report = {
  buildBookPdf: async ({ book, paper }) => new TextEncoder().encode(`book ${book.job} ${paper}`),
  morningCardPdf: async ({ book, zone }) => new TextEncoder().encode(`left ${book.job} ${zone ?? 'UTC'}`),
  slipPdf: async ({ book, component }) => new TextEncoder().encode(`slip ${book.job} ${component ?? 'all'}`),
  tagsPdf: async ({ book, paper, size, from, page, parts }) =>
    new TextEncoder().encode(`tags ${book.job} ${paper} ${size} ${from} ${page} ${parts?.join() ?? 'all'}`),
  wallSheetPdf: async ({ book, paper, printedAt }) =>
    new TextEncoder().encode(`wall ${book.sheet?.title} ${paper} ${printedAt}`),
};

export async function testBench(options: Partial<AppOptions> & { lan?: boolean } = {}): Promise<TestBench> {
  const path = mkdtempSync(join(tmpdir(), 'fettle-server-'));
  const opened = await openDataDirectory(path);
  if (!opened.ok) throw new Error(opened.issues[0]?.message);
  const closing = new AbortController();
  const random = (count: number): Uint8Array => new Uint8Array(randomBytes(count));
  const bench: TestBench = {
    path,
    directory: options.directory ?? opened.value,
    clock: Date.UTC(2026, 2, 1, 10),
    peer: DESK,
    faults: [],
    access: {
      peer: () => bench.peer,
      secret: SECRET,
      lan: options.lan ?? false,
      pairing: new Pairing(() => bench.clock, random),
    },
    ask: async (at, init = {}) =>
      app.request(at, { ...init, headers: { host: HOST, ...(init.headers as Record<string, string>) } }),
    json: async (at, method = 'GET', value) => {
      const response = await bench.ask(at, {
        method,
        ...(value !== undefined && {
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(value),
        }),
      });
      const text = await response.text();
      return { status: response.status, body: text === '' ? undefined : JSON.parse(text) };
    },
    close: async () => {
      closing.abort();
      await opened.value.close();
      rmSync(path, { recursive: true });
    },
  };
  const app = createApp({
    report: spokenReport,
    now: () => bench.clock,
    random,
    closing: closing.signal,
    faulted: (error) => bench.faults.push(error),
    ...options,
    directory: bench.directory,
    access: bench.access,
  });
  return bench;
}

export const JOB = '01920000-0000-7000-8000-000000000001';
export const OTHER_JOB = '01920000-0000-7000-8000-000000000002';

let count = 0;
/** A fresh id, later than every one before it. */
export function freshId(): string {
  count += 1;
  return newEntryId(1_700_000_000_000 + count, new Uint8Array(randomBytes(10)));
}

/** A ledger that opens a job and notes the texts, written by one device. */
export function ledgerOf(texts: readonly string[], { job = JOB, device = 'tablet' } = {}): Entry[] {
  const ledger: Entry[] = [];
  const pen = () => ({ job, device, who: 'Sam', at: '2026-03-01T10:00:00Z', id: freshId() });
  ledger.push(nextEntry(ledger, pen(), 'job-opened', { title: 'The blue one' }));
  for (const text of texts) ledger.push(nextEntry(ledger, pen(), 'note', { text }));
  return ledger;
}

/** The codes in a problem document. */
export const codesIn = (body: unknown): string[] =>
  (body as { issues: { code: string }[] }).issues.map(({ code }) => code);

import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { failed } from '@fettle/core';
import { afterEach, expect, it } from 'vitest';
import { codesIn, JOB, ledgerOf, type TestBench, testBench } from './testing/bench.ts';

const open: TestBench[] = [];
const folders: string[] = [];
afterEach(async () => {
  for (const bench of open.splice(0)) await bench.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});
async function opened(...given: Parameters<typeof testBench>): Promise<TestBench> {
  const bench = await testBench(...given);
  open.push(bench);
  return bench;
}

function builtPage(): string {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
  folders.push(folder);
  const root = join(folder, 'dist');
  mkdirSync(join(root, 'assets'), { recursive: true });
  writeFileSync(join(root, 'index.html'), '<!doctype html><title>bench</title>');
  writeFileSync(join(root, 'assets', 'index-abc123.js'), 'export {};');
  writeFileSync(join(root, 'service-worker.js'), 'self.skipWaiting();');
  writeFileSync(join(root, 'manifest.webmanifest'), '{}');
  writeFileSync(join(root, '.hidden'), 'not of the page');
  writeFileSync(join(folder, 'secret.txt'), 'not of the page');
  symlinkSync(join(folder, 'secret.txt'), join(root, 'link.txt'));
  return root;
}

it('serves the built page: hashed files for ever, the rest asked after each time', async () => {
  const bench = await opened({ webRoot: builtPage() });
  const got = async (path: string) => {
    const { status, headers } = await bench.ask(path);
    return [status, headers.get('content-type'), headers.get('cache-control')];
  };
  expect(await got('/')).toEqual([200, 'text/html; charset=utf-8', 'no-cache']);
  expect(await got('/assets/index-abc123.js')).toEqual([
    200,
    'text/javascript; charset=utf-8',
    'public, max-age=31536000, immutable',
  ]);
  expect(await got('/service-worker.js')).toEqual([200, 'text/javascript; charset=utf-8', 'no-cache']);
  expect((await bench.ask('/service-worker.js')).headers.get('service-worker-allowed')).toBe('/');
  expect((await got('/manifest.webmanifest'))[1]).toBe('application/manifest+json');
  // A place of the page is the page; a file that is not there is not.
  expect(await got('/covers/pan')).toEqual([200, 'text/html; charset=utf-8', 'no-cache']);
  expect((await got('/assets/index-old.js'))[0]).toBe(404);
  expect((await got('/favicon.ico'))[0]).toBe(404);
  expect((await got('/api/nothing'))[0]).toBe(404);
  const etag = (await bench.ask('/')).headers.get('etag')!;
  const again = await bench.ask('/', { headers: { 'if-none-match': etag } });
  expect([again.status, await again.text()]).toEqual([304, '']);
});

it('packs scripts for who takes gzip, each form under a tag of its own', async () => {
  const bench = await opened({ webRoot: builtPage() });
  const path = '/assets/index-abc123.js';
  const plain = await bench.ask(path);
  const packed = await bench.ask(path, { headers: { 'accept-encoding': 'gzip, br' } });
  expect([plain.headers.get('content-encoding'), packed.headers.get('content-encoding')]).toEqual([
    null,
    'gzip',
  ]);
  expect([plain, packed].map(({ headers }) => headers.get('vary'))).toEqual([
    'Accept-Encoding',
    'Accept-Encoding',
  ]);
  const bytes = new Uint8Array(await packed.arrayBuffer());
  expect(String(bytes.length)).toBe(packed.headers.get('content-length'));
  expect(gunzipSync(bytes).toString('utf8')).toBe(await plain.text());
  const tags = [plain, packed].map(({ headers }) => headers.get('etag')!);
  expect(new Set(tags).size).toBe(2);
  const ask = async (etag: string, encoding: string) =>
    (await bench.ask(path, { headers: { 'if-none-match': etag, 'accept-encoding': encoding } })).status;
  expect(await ask(tags[1]!, 'gzip')).toBe(304);
  expect(await ask(`"other", W/${tags[1]}`, 'gzip')).toBe(304);
  expect(await ask(tags[1]!, 'identity')).toBe(200);
});

it.each([
  '/../secret.txt',
  '/..%2fsecret.txt',
  '/%2e%2e/secret.txt',
  '/assets/..%2f..%2fsecret.txt',
  '/link.txt',
  '/.hidden',
  '/%00',
  '/..%5csecret.txt',
  '/%E0%A4%A',
])('gives nothing from outside the page at %s', async (path) => {
  const bench = await opened({ webRoot: builtPage() });
  const response = await bench.ask(path);
  const text = await response.text();
  expect(text).not.toContain('not of the page');
  expect(response.status).toBeLessThan(500);
});

it('says in a plain sentence that the page is not built', async () => {
  const bench = await opened();
  const response = await bench.ask('/');
  expect(response.status).toBe(503);
  expect(await response.text()).toContain('not built yet');
});

it('says which method an address takes, and that there is nothing at another', async () => {
  const bench = await opened();
  const wrong = await bench.ask(`/api/jobs/${JOB}/entries`, { method: 'DELETE' });
  expect([wrong.status, wrong.headers.get('allow')]).toEqual([405, 'GET, POST']);
  expect(wrong.headers.get('content-type')).toBe('application/problem+json');
  expect((await bench.ask('/api/jobs', { method: 'PATCH' })).status).toBe(405);
  expect(codesIn((await bench.json('/api/teapot')).body)).toEqual(['request/unknown-path']);
});

it('tells nothing but that it is at fault when it is, and tells its own window what', async () => {
  const bench = await opened();
  const broken = await opened({
    directory: {
      ...bench.directory,
      store: {
        ...bench.directory.store,
        jobs: () => Promise.reject(new Error('the inner workings of /home/sam')),
      },
    },
  });
  const response = await broken.ask('/api/jobs');
  const text = await response.text();
  expect(response.status).toBe(500);
  expect(codesIn(JSON.parse(text))).toEqual(['server/fault']);
  expect(text).not.toMatch(/inner workings|\bat \w+.*\.ts|node_modules/);
  expect(broken.faults).toHaveLength(1);
});

it.each([
  ['store/disk-full', 507],
  ['store/in-use', 503],
  ['store/damaged', 500],
])('answers %s with %i, and acknowledges nothing', async (code, status) => {
  const bench = await opened();
  const issue = { code, at: 'x', got: 'x', wanted: 'y', message: 'Make room.' };
  const full = await opened({
    directory: {
      ...bench.directory,
      store: { ...bench.directory.store, append: async () => failed(issue) },
    },
  });
  const sent = await full.ask(`/api/jobs/${JOB}/entries`, {
    method: 'POST',
    body: JSON.stringify(ledgerOf(['a'])),
    headers: { 'content-type': 'application/json' },
  });
  expect(sent.status).toBe(status);
  expect(await sent.json()).toMatchObject({ status, detail: 'Make room.', issues: [issue] });
  expect(sent.headers.get('retry-after')).toBe(status === 503 ? '1' : null);
  expect((await full.json('/api/jobs')).body).toEqual([]);
});

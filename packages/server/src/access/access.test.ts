import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesIn, HOST, JOB, ledgerOf, SECRET, type TestBench, testBench } from '../testing/bench.ts';
import { isLoopback } from './access.ts';

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench();
});
afterEach(() => bench.close());

const asked = async (headers: Record<string, string>, path = '/api/jobs', init: RequestInit = {}) => {
  const response = await bench.ask(path, { ...init, headers });
  const text = await response.text();
  return [response.status, response.ok ? undefined : codesIn(JSON.parse(text))[0]];
};

it.each([
  'attacker.example',
  'attacker.example:4173',
  '10.0.0.7:4173',
  '',
  '127.0.0.1.attacker.example',
  'a@127.0.0.1',
  '[::2]',
  'localhost:4173:1',
])('does not answer to the name "%s", on any path', async (host) => {
  for (const path of ['/api/jobs', '/', '/assets/x.js', '/api/health', '/pair'])
    expect(await asked({ host }, path)).toEqual([403, 'access/foreign-host']);
});

it.each(['127.0.0.1:4173', 'localhost:4173', 'LOCALHOST', '[::1]:4173', '127.0.0.1:8080'])(
  'answers to the name "%s"',
  async (host) => {
    expect(await asked({ host })).toEqual([200, undefined]);
  },
);

it.each([
  'http://attacker.example',
  'http://localhost:5173',
  'https://127.0.0.1:4173',
  'null',
  'http://127.0.0.1:4173.attacker.example',
  'file://',
])('refuses what a page of %s asks, to read and to write', async (origin) => {
  expect(await asked({ origin })).toEqual([403, 'access/foreign-origin']);
  const write = { method: 'POST', body: JSON.stringify(ledgerOf([])) };
  const headers = { origin, 'content-type': 'application/json' };
  expect(await asked(headers, `/api/jobs/${JOB}/entries`, write)).toEqual([403, 'access/foreign-origin']);
  expect((await bench.json('/api/jobs')).body).toEqual([]);
});

it('answers its own page', async () => {
  expect(await asked({ origin: `http://${HOST}` })).toEqual([200, undefined]);
  expect(await asked({ 'sec-fetch-site': 'same-origin' })).toEqual([200, undefined]);
  expect(await asked({ 'sec-fetch-site': 'none' })).toEqual([200, undefined]);
});

it('refuses what another site reaches for without saying who it is', async () => {
  expect(await asked({ 'sec-fetch-site': 'cross-site' })).toEqual([403, 'access/foreign-origin']);
  expect(await asked({ 'sec-fetch-site': 'same-site' })).toEqual([403, 'access/foreign-origin']);
});

it('answers only this machine while it is not open to the network', async () => {
  bench.peer = { remote: '192.168.1.20', local: '192.168.1.2' };
  for (const path of ['/', '/api/jobs', '/pair', '/api/health'])
    expect(await asked({}, path)).toEqual([403, 'access/not-this-machine']);
  bench.peer = { remote: '', local: '' };
  expect(await asked({})).toEqual([403, 'access/not-this-machine']);
});

it('knows the secret of the data directory, and refuses another even at the desk', async () => {
  expect(await asked({}, '/api/directory')).toEqual([401, 'access/wrong-secret']);
  expect(await asked({ authorization: 'Bearer wrong' }, '/api/directory')).toEqual([
    401,
    'access/wrong-secret',
  ]);
  expect(await asked({ authorization: `Basic ${SECRET}` })).toEqual([401, 'access/wrong-secret']);
  expect(await asked({ authorization: `Bearer ${SECRET}` }, '/api/directory')).toEqual([200, undefined]);
});

it('sends every answer, also a refusal, with headers that let nothing foreign in', async () => {
  for (const [path, headers] of [
    ['/api/jobs', {}],
    ['/', {}],
    ['/api/nothing', {}],
    ['/api/jobs', { host: 'attacker.example' }],
    ['/pair', {}],
  ] as const) {
    const { headers: got } = await bench.ask(path, { headers });
    const policy = got.get('content-security-policy')!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("style-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe');
    expect(got.get('x-content-type-options')).toBe('nosniff');
    expect(got.get('referrer-policy')).toBe('same-origin');
    expect(got.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(got.get('cross-origin-resource-policy')).toBe('same-origin');
    expect(got.get('access-control-allow-origin')).toBeNull();
  }
});

it.each([
  ['127.0.0.1', true],
  ['127.8.8.8', true],
  ['::1', true],
  ['::ffff:127.0.0.1', true],
  ['192.168.1.20', false],
  ['::ffff:192.168.1.20', false],
  ['1127.0.0.1', false],
  ['127.0.0.1.example', false],
  ['', false],
])('takes %s for this machine: %s', (address, wanted) => {
  expect(isLoopback(address)).toBe(wanted);
});

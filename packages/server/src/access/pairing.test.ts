import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesIn, type TestBench, testBench } from '../testing/bench.ts';

const PHONE = { remote: '192.168.1.20', local: '192.168.1.2' };
const DESK = { remote: '127.0.0.1', local: '127.0.0.1' };
const HOST = '192.168.1.2:4173';
const MINUTE = 60_000;

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench({ lan: true });
});
afterEach(() => bench.close());

async function newCode(): Promise<string> {
  bench.peer = DESK;
  const { status, body } = await bench.json('/api/pairing', 'POST');
  expect(status).toBe(201);
  bench.peer = PHONE;
  return (body as { code: string }).code;
}

function fromPhone(path: string, init: RequestInit = {}, remote = PHONE.remote): Promise<Response> {
  bench.peer = { ...PHONE, remote };
  return bench.ask(path, { ...init, headers: { host: HOST, ...(init.headers as Record<string, string>) } });
}

async function tried(code: unknown, name: unknown = 'bench tablet', remote = PHONE.remote) {
  const response = await fromPhone(
    '/api/pair',
    { method: 'POST', body: JSON.stringify({ code, name }), headers: { 'content-type': 'application/json' } },
    remote,
  );
  const body = (await response.json()) as { device: string };
  return {
    status: response.status,
    code: response.ok ? undefined : codesIn(body)[0],
    cookie: response.headers.get('set-cookie') ?? '',
    wait: Number(response.headers.get('retry-after')),
    device: body.device,
  };
}

const another = (code: string): string => code.replace(/./g, (sign) => (sign === 'A' ? 'B' : 'A'));

it('lets no unpaired device see anything but the page on which it pairs', async () => {
  for (const path of [
    '/api/jobs',
    '/api/health',
    '/api/events',
    '/api/openapi.json',
    '/api/session',
    '/assets/a.js',
    '/service-worker.js',
  ]) {
    const response = await fromPhone(path);
    expect([path, response.status, codesIn(await response.json())]).toEqual([
      path,
      403,
      ['access/not-paired'],
    ]);
  }
  expect((await fromPhone('/pair')).status).toBe(200);
  expect((await fromPhone('/pair.css')).status).toBe(200);
  const front = await fromPhone('/', { headers: { accept: 'text/html' } });
  expect(front.status).toBe(403);
  expect(await front.text()).toContain('<form method="post" action="/api/pair">');
});

it('pairs a device by the code, lets it in by its cookie, and out again when it is revoked', async () => {
  const { status, cookie, device } = await tried(await newCode());
  expect(status).toBe(201);
  expect(cookie).toMatch(/^fettle-device=[\w-]{43};/);
  expect(cookie).toContain('HttpOnly');
  expect(cookie).toContain('SameSite=Strict');
  const headers = { cookie: cookie.split(';')[0]! };
  expect((await fromPhone('/api/jobs', { headers })).status).toBe(200);
  expect(await (await fromPhone('/api/session', { headers })).json()).toMatchObject({
    local: false,
    lan: true,
  });

  // What is at rest does not open anything.
  const file = join(bench.path, 'devices.json');
  expect(statSync(file).mode & 0o777).toBe(0o600);
  const kept = readFileSync(file, 'utf8');
  expect(kept).not.toContain(headers.cookie.split('=')[1]);
  const { hash } = (JSON.parse(kept) as { devices: { hash: string }[] }).devices[0]!;
  expect((await fromPhone('/api/jobs', { headers: { cookie: `fettle-device=${hash}` } })).status).toBe(403);

  bench.peer = DESK;
  expect((await bench.json('/api/devices')).body).toEqual([
    { id: device, name: 'bench tablet', paired: '2026-03-01T10:00:00.000Z' },
  ]);
  expect((await bench.json(`/api/devices/${device}`, 'DELETE')).status).toBe(204);
  expect((await bench.json(`/api/devices/${device}`, 'DELETE')).status).toBe(404);
  expect((await fromPhone('/api/jobs', { headers })).status).toBe(403);
});

it('takes a code once, in any case, with spaces', async () => {
  const code = await newCode();
  expect((await tried(` ${code.slice(0, 3).toLowerCase()}-${code.slice(3)} `)).status).toBe(201);
  expect(await tried(code)).toMatchObject({ status: 403, code: 'pairing/no-code' });
});

it('forgets a code after five minutes, and when a newer one is made', async () => {
  const old = await newCode();
  const newer = await newCode();
  expect(await tried(old)).toMatchObject({ status: 403, code: 'pairing/wrong-code' });
  bench.clock += 5 * MINUTE;
  expect(await tried(newer)).toMatchObject({ status: 403, code: 'pairing/no-code' });
  bench.peer = DESK;
  expect((await bench.json('/api/pairing')).body).toEqual({ code: null, expires: null });
});

it('lets one address be wrong five times in five minutes, even with the right code after', async () => {
  const code = await newCode();
  for (let times = 0; times < 5; times++)
    expect(await tried(another(code))).toMatchObject({ status: 403, code: 'pairing/wrong-code' });
  const held = await tried(code);
  expect(held).toMatchObject({ status: 429, code: 'pairing/too-many-tries' });
  expect(held.wait).toBe(300);
  // Another address is not held up by it.
  expect((await tried(code, 'phone', '192.168.1.21')).status).toBe(201);
  bench.clock += 5 * MINUTE;
  expect((await tried(await newCode())).status).toBe(201);
});

it('voids a code at which many addresses were wrong', async () => {
  const code = await newCode();
  for (let i = 0; i < 20; i++) await tried(another(code), 'x', `192.168.1.${100 + i}`);
  expect(await tried(code)).toMatchObject({ status: 403, code: 'pairing/no-code' });
});

it.each([
  [undefined, 'x'],
  [7, 'x'],
  ['AAAAAA', ''],
  ['AAAAAA', 'n'.repeat(61)],
  ['AAAAAA', { a: 1 }],
])('refuses the code %s with the name %s, and does not count it as a try', async (code, name) => {
  const right = await newCode();
  for (let times = 0; times < 6; times++) expect((await tried(code, name)).status).toBe(400);
  expect((await tried(right)).status).toBe(201);
});

it('pairs by the form of its page, without any script', async () => {
  const code = await newCode();
  const form = (body: string) =>
    fromPhone('/api/pair', {
      method: 'POST',
      body,
      headers: { 'content-type': 'application/x-www-form-urlencoded', origin: `http://${HOST}` },
    });
  const wrong = await form(`code=${another(code)}&name=%3Cb%3E`);
  expect(wrong.status).toBe(403);
  expect(await wrong.text()).toContain('not the code shown at the desk');
  const right = await form(`code=${code}&name=tablet`);
  expect([right.status, right.headers.get('location')]).toEqual([303, '/']);
  expect(right.headers.get('set-cookie')).toContain('fettle-device=');
});

it('lets a paired device neither pair nor revoke others', async () => {
  const { cookie, device } = await tried(await newCode());
  const headers = { cookie: cookie.split(';')[0]! };
  for (const [method, path] of [
    ['GET', '/api/pairing'],
    ['POST', '/api/pairing'],
    ['GET', '/api/devices'],
    ['DELETE', `/api/devices/${device}`],
  ] as const) {
    const response = await fromPhone(path, { method, headers });
    expect([path, response.status, codesIn(await response.json())]).toEqual([
      path,
      403,
      ['access/desk-only'],
    ]);
  }
});

it('answers the network to its own address and names only', async () => {
  bench.peer = PHONE;
  const status = async (host: string) => (await bench.ask('/pair', { headers: { host } })).status;
  expect(await status('192.168.1.2:4173')).toBe(200);
  expect(await status(hostname())).toBe(200);
  expect(await status('192.168.1.3:4173')).toBe(403);
  expect(await status('attacker.example')).toBe(403);
});

it('lets nobody in by a file of devices that does not read', async () => {
  const { cookie } = await tried(await newCode());
  const headers = { cookie: cookie.split(';')[0]! };
  writeFileSync(join(bench.path, 'devices.json'), '{"devices": [{"id"');
  expect((await fromPhone('/api/jobs', { headers })).status).toBe(403);
  const again = await tried(await newCode());
  expect(again).toMatchObject({ status: 400, code: 'device/file' });
  bench.peer = DESK;
  expect(codesIn((await bench.json('/api/devices')).body)).toEqual(['device/file']);
});

it('makes no code while the bench is not open to the network', async () => {
  const closed = await testBench();
  try {
    expect(codesIn((await closed.json('/api/pairing', 'POST')).body)).toEqual(['pairing/not-open']);
    const tried = await closed.json('/api/pair', 'POST', { code: 'AAAAAA', name: 'x' });
    expect([tried.status, codesIn(tried.body)]).toEqual([403, ['pairing/not-open']]);
  } finally {
    await closed.close();
  }
});

import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contentHash, outlineSheet } from '@fettle/book';
import { openDataDirectory, written } from '@fettle/store';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { directoryAt, remoteDirectory } from './remote/remote-directory.ts';
import { runningServer } from './running.ts';
import { type Serving, serve } from './serve.ts';
import { JOB, ledgerOf, spokenReport } from './testing/bench.ts';
import { servingChild } from './testing/serving-child.ts';

let folder: string;
let data: string;
const open: Serving[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-serve-'));
  data = join(folder, 'data');
});
afterEach(async () => {
  for (const serving of open.splice(0)) await serving.close();
  rmSync(folder, { recursive: true });
});

async function served(options: Partial<Parameters<typeof serve>[0]> = {}): Promise<Serving> {
  const serving = await serve({ directory: data, port: 0, report: spokenReport, ...options });
  if (!serving.ok) throw new Error(serving.issues[0]?.message);
  open.push(serving.value);
  return serving.value;
}

const good = <T>(
  outcome: { ok: true; value: T } | { ok: false; issues: readonly { message: string }[] },
): T => {
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
  return outcome.value;
};

/** A request whose Host is what we say: fetch would put its own. */
function status(address: string, headers: Record<string, string>): Promise<number> {
  return new Promise((resolve, reject) => {
    request(address, { headers }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    })
      .on('error', reject)
      .end();
  });
}

it('listens on this machine only, and refuses a foreign name over a real connection', async () => {
  const { address, addresses } = await served();
  expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  expect(addresses).toEqual([]);
  expect(await status(`${address}api/health`, {})).toBe(200);
  expect(await status(`${address}api/health`, { host: 'attacker.example' })).toBe(403);
  expect(await status(`${address}api/health`, { origin: 'http://attacker.example' })).toBe(403);
});

it('answers a body that is too large over a real connection, and goes on answering', async () => {
  const { address } = await served();
  const huge = await fetch(`${address}api/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: ' '.repeat(5 * 2 ** 20),
  });
  expect(huge.status).toBe(413);
  expect(await status(`${address}api/health`, {})).toBe(200);
});

it('holds its directory, says so in a file only its owner reads, and leaves nothing behind', async () => {
  const first = await served();
  const file = join(data, 'server.json');
  expect(statSync(file).mode & 0o777).toBe(0o600);
  const running = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
  expect(running).toMatchObject({ address: first.address, pid: process.pid });
  expect(await runningServer(data)).toEqual(running);

  const second = await serve({ directory: data, port: 0 });
  expect(second).toMatchObject({ ok: false, issues: [{ code: 'server/already-running' }] });
  expect(second.ok ? '' : second.issues[0]!.message).toContain(first.address);

  await first.close();
  expect(existsSync(file)).toBe(false);
  expect(await runningServer(data)).toBeUndefined();
  await served();
});

it('is let go of by a server that was killed', async () => {
  const { address, kill } = await servingChild(data);
  expect((await runningServer(data))?.address).toBe(address);
  const second = await serve({ directory: data, port: 0 });
  expect(second).toMatchObject({ ok: false, issues: [{ code: 'server/already-running' }] });
  await kill();
  expect(existsSync(join(data, 'server.json'))).toBe(true);
  expect(await runningServer(data)).toBeUndefined();
  await served();
});

it('says that a port is taken, and lets go of the directory', async () => {
  const { port } = await served();
  const other = join(folder, 'other');
  const taken = await serve({ directory: other, port });
  expect(taken).toMatchObject({ ok: false, issues: [{ code: 'server/port-in-use' }] });
  expect(await runningServer(other)).toBeUndefined();
});

it('does not open the bench to the network without being told so', async () => {
  const refused = await serve({ directory: data, port: 0, host: '0.0.0.0' });
  expect(refused).toMatchObject({ ok: false, issues: [{ code: 'server/host-needs-lan' }] });
});

it('answers the desk, and holds off the network until it pairs, when opened to it', async () => {
  const { address, addresses, newPairingCode } = await served({ lan: true });
  expect((await fetch(`${address}api/jobs`)).status).toBe(200);
  expect(newPairingCode().code).toMatch(/^[2-9A-HJKMNP-Z]{6}$/);
  // A machine without a network has no address to try.
  for (const own of addresses) {
    expect((await fetch(`${own}api/jobs`)).status).toBe(403);
    expect((await fetch(`${own}pair`)).status).toBe(200);
  }
});

it('ends open streams when it closes', async () => {
  const serving = await served();
  const stream = await fetch(`${serving.address}api/events`);
  const text = stream.text();
  await serving.close();
  expect(await text).toContain('retry:');
});

const hand = (now = 1_700_000_000_000) => ({
  job: JOB,
  who: 'Sam',
  now,
  random: (count: number) => crypto.getRandomValues(new Uint8Array(count)),
});

it('is the same directory through the server as opened directly', async () => {
  const { address } = await served();
  const remote = good(await directoryAt(data));
  const direct = good(await openDataDirectory(data));
  expect([remote.path, remote.device]).toEqual([direct.path, direct.device]);
  const sheet = good(outlineSheet({ layout: 'twin', cylinders: 2, mains: 2, title: 'Two' }));
  const hash = contentHash(sheet);
  const entries = good(
    await written(
      remote,
      hand(),
      [
        { kind: 'job-opened', body: { title: 'Ours' } },
        { kind: 'spec-adopted', body: { sheet: hash, title: 'Two' } },
      ],
      { sheets: [{ hash, json: sheet }] },
    ),
  );
  // The next page of the same writer, from the directory itself: the chain goes on.
  const [next] = good(await written(direct, hand(), [{ kind: 'note', body: { text: 'b' } }]));
  expect(next).toMatchObject({ n: 3, device: direct.device });
  expect(good(await remote.store.entries(JOB)).entries).toEqual([...entries, next]);
  expect(good(await remote.store.entries(JOB, { after: 2 }))).toEqual({ entries: [next], last: 3 });
  expect(good(await remote.store.entries(crypto.randomUUID()))).toEqual({ entries: [], last: 0 });
  expect(good(await remote.store.jobs())).toEqual([{ job: JOB, entries: 3 }]);
  expect(good(await remote.store.sheet(hash))).toEqual(sheet);
  expect(good(await remote.store.sheet('0'.repeat(64)))).toBeUndefined();
  const bytes = new Uint8Array([1, 2, 3]);
  const photo = good(await remote.store.putPhoto(bytes, 'image/png'));
  expect(good(await direct.store.photo(photo))).toEqual({ media: 'image/png', bytes });
  expect(good(await remote.store.photo(photo))).toEqual({ media: 'image/png', bytes });
  expect(good(await remote.store.photo('0'.repeat(64)))).toBeUndefined();
  const forged = await remote.store.append({ entries: [{ ...next, who: 'Kim' }] });
  // Both are kept and told, through the server as opened directly.
  expect(good(forged).reused).toEqual([next!.id]);
  expect(good(await direct.store.jobs())).toEqual([{ job: JOB, entries: 4 }]);
  const listed = (await (await fetch(`${address}api/jobs`)).json()) as { title: string }[];
  expect(listed.map(({ title }) => title)).toEqual(['Ours']);
  await remote.close();
  await direct.close();
});

it('goes on with the directory itself when the server dies in between', async () => {
  const server = await servingChild(data);
  const remote = good(await directoryAt(data));
  good(await remote.store.append({ entries: ledgerOf([]) }));
  await server.kill();
  const [note] = good(await written(remote, hand(), [{ kind: 'note', body: { text: 'after' } }]));
  expect(good(await remote.store.entries(JOB)).entries.map(({ id }) => id)).toContain(note!.id);
  await remote.close();
});

it('says so when the server holds the directory but does not answer', async () => {
  const { address } = await served();
  const { port } = new URL(address);
  const mute = await remoteDirectory(data, { address: 'http://127.0.0.1:9/', secret: 'x' });
  expect(mute).toMatchObject({ ok: false, issues: [{ code: 'server/no-answer' }] });
  const wrong = await remoteDirectory(data, { address: `http://127.0.0.1:${port}/`, secret: 'x' });
  expect(wrong).toMatchObject({ ok: false, issues: [{ code: 'access/wrong-secret' }] });
});

it('opens the directory directly while no server holds it', async () => {
  const directory = good(await directoryAt(data));
  good(await directory.store.append({ entries: ledgerOf(['a']) }));
  expect(good(await directory.store.jobs())).toEqual([{ job: JOB, entries: 2 }]);
  await directory.close();
});

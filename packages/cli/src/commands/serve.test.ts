import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Outcome } from '@fettle/core';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { contextOf } from '../context.ts';
import type { Io } from '../io.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { registerDevices } from './devices.ts';
import { registerServe } from './serve.ts';

let data: string;
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fettle-serve-command-'));
});
afterEach(() => rmSync(data, { recursive: true }));

/** Types one command; `said` fills while it runs. */
function typed(register: Register, words: readonly string[], env: Record<string, string> = {}) {
  const said: string[] = [];
  const io: Io = {
    out: (text) => said.push(text),
    err: (text) => said.push(text),
    now: () => Date.now(),
    random: (count) => new Uint8Array(count),
    env: { FETTLE_NO_BROWSER: '1', ...env },
    user: () => 'Sam',
    stdin: () => '',
    watched: false,
  };
  const program = new Command('fettle').exitOverride();
  const done = new Promise<Outcome<Reply>>((resolve, reject) => {
    register(program, async (handler) => {
      const context = contextOf(io, { data }, () => Promise.reject(new Error('nothing is typed here')));
      await handler(context).then(resolve, reject);
    });
    program.parseAsync([...words], { from: 'user' }).catch(reject);
  });
  return { said, done };
}

async function until(holds: () => boolean): Promise<void> {
  for (let tries = 0; !holds(); tries++) {
    if (tries > 500) throw new Error('it did not come in five seconds');
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

it('serves until it is interrupted, prints where, and pairs and revokes by its commands', async () => {
  const serving = typed(registerServe, ['serve', '--lan', '--port', '0']);
  await until(() => serving.said.some((text) => text.includes('Ctrl-C')));
  const text = serving.said.join('');
  const address = /open at (http:\/\/127\.0\.0\.1:\d+\/)/.exec(text)![1]!;
  expect(text).toMatch(/Pairing code: [2-9A-Z]{6},/);
  expect((await fetch(`${address}api/health`)).status).toBe(200);

  const again = await typed(registerServe, ['serve', '--port', '0']).done;
  expect(again).toMatchObject({ ok: false, issues: [{ code: 'server/already-running' }] });

  const made = await typed(registerDevices, ['devices', 'pair']).done;
  const { code } = (made.ok ? made.value.json : {}) as { code: string };
  const paired = await fetch(`${address}api/pair`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code, name: 'bench tablet' }),
  });
  expect(paired.status).toBe(201);
  expect(await typed(registerDevices, ['devices']).done).toMatchObject({
    ok: true,
    value: { json: [{ name: 'bench tablet' }] },
  });
  expect(await typed(registerDevices, ['devices', 'revoke', 'bench tablet']).done).toMatchObject({
    ok: true,
  });
  expect(await typed(registerDevices, ['devices', 'revoke', 'bench tablet']).done).toMatchObject({
    ok: false,
    issues: [{ code: 'device/unknown' }],
  });
  expect(await typed(registerDevices, ['devices']).done).toMatchObject({ ok: true, value: { json: [] } });

  process.emit('SIGINT');
  expect(await serving.done).toMatchObject({ ok: true, value: { json: { closed: true } } });
  await expect(fetch(`${address}api/health`)).rejects.toThrow();
  expect(await typed(registerDevices, ['devices', 'pair']).done).toMatchObject({
    ok: false,
    issues: [{ code: 'server/not-running' }],
  });
});

it.each(['eighty', '-1', '65536', '1.5'])('refuses the port %s', async (port) => {
  expect(await typed(registerServe, ['serve', `--port=${port}`]).done).toMatchObject({
    ok: false,
    issues: [{ code: 'port/unreadable' }],
  });
  expect(await typed(registerServe, ['serve'], { PORT: port }).done).toMatchObject({
    ok: false,
    issues: [{ code: 'port/unreadable' }],
  });
});

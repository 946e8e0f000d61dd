import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { failed, type Outcome, ok } from '@fettle/core';
import { exclusiveLock, isLocked } from '@fettle/store';
import * as z from 'zod';

const LOCK_FILE = 'server.lock.sqlite';
const SERVER_FILE = 'server.json';
/** Between two tries, and how often: somebody who only asks holds the lock for a moment [ms]. */
const RETRY = 25;
const TRIES = 20;

const runningSchema = z.object({ address: z.url(), secret: z.string().min(20), pid: z.int() });

/** A server that holds a data directory, as its file tells those who may read it. */
export type Running = z.infer<typeof runningSchema>;

/** The server that holds a data directory now. One that died left the file, but not the lock. */
export async function runningServer(directory: string): Promise<Running | undefined> {
  // Between taking the lock and listening a server has no file yet.
  for (let tries = 0; tries < TRIES; tries++) {
    if (!isLocked(join(directory, LOCK_FILE))) return undefined;
    const running = onFile(directory);
    if (running) return running;
    await pause(RETRY);
  }
  return undefined;
}

export interface Held {
  /** Says where the server listens. @param running  as others will read it */
  announce(running: Running): void;
  release(): void;
}

/** Becomes the one server of a data directory, until released or dead. */
export async function heldDirectory(directory: string): Promise<Outcome<Held>> {
  const file = join(directory, SERVER_FILE);
  for (let tries = 0; ; tries++) {
    const lock = exclusiveLock(join(directory, LOCK_FILE));
    if (lock.ok) {
      // What a server that died left behind.
      rmSync(file, { force: true });
      return ok({
        announce: (running) => writeFileSync(file, `${JSON.stringify(running)}\n`, { mode: 0o600 }),
        release: () => {
          rmSync(file, { force: true });
          lock.value.release();
        },
      });
    }
    if (lock.issues[0]?.code !== 'store/in-use') return lock;
    if (tries >= TRIES) break;
    await pause(RETRY);
  }
  const running = await runningServer(directory);
  const where = running?.address ?? 'an address it has not told yet';
  return failed({
    code: 'server/already-running',
    at: directory,
    got: `a server at ${where}${running ? `, pid ${running.pid}` : ''}`,
    wanted: 'a data directory no server holds',
    message: `A server holds ${directory} already: open ${where}, or stop it first (Ctrl-C in its window).`,
  });
}

function onFile(directory: string): Running | undefined {
  try {
    const read = runningSchema.safeParse(JSON.parse(readFileSync(join(directory, SERVER_FILE), 'utf8')));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}

import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { exclusiveLock } from './exclusive-lock.ts';
import { failed, type Outcome } from './outcome.ts';

/** Between two tries for the lock [ms]. */
const RETRY = 20;
const LOCK_FILE = 'writer.lock.sqlite';
/** Who holds the lock. For the message only: it may be out of date, the lock never is. */
const HOLDER_FILE = 'writer.json';

/**
 * Does `work` as the one writer of a data directory, across processes.
 *
 * @param wait  how long to wait for another writer [ms]
 */
export async function asWriter<T>(
  directory: string,
  wait: number,
  work: () => Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  const file = join(directory, LOCK_FILE);
  const until = performance.now() + wait;
  for (;;) {
    const lock = exclusiveLock(file);
    if (lock.ok) {
      const holder = join(directory, HOLDER_FILE);
      try {
        writeFileSync(holder, `${JSON.stringify({ pid: process.pid })}\n`, { mode: 0o600 });
        return await work();
      } finally {
        rmSync(holder, { force: true });
        lock.value.release();
      }
    }
    if (lock.issues[0]?.code !== 'store/in-use') return lock;
    if (performance.now() >= until) return inUse(directory, wait);
    await pause(RETRY);
  }
}

function inUse(directory: string, wait: number): Outcome<never> {
  const pid = holderOf(directory);
  const who = pid === undefined ? 'another process' : `the process with pid ${pid}`;
  return failed({
    code: 'store/in-use',
    at: directory,
    got: `${who} writing`,
    wanted: `to be the one writer within ${wait} ms`,
    message: `${directory} is being written by ${who}. Wait until it is done or stop it, then try again. Reading works meanwhile.`,
  });
}

function holderOf(directory: string): number | undefined {
  try {
    const { pid } = JSON.parse(readFileSync(join(directory, HOLDER_FILE), 'utf8')) as { pid?: unknown };
    return typeof pid === 'number' ? pid : undefined;
  } catch {
    // Between taking the lock and writing its name the holder has none yet.
    return undefined;
  }
}

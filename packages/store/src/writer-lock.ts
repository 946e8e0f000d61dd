import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { failed, type Outcome, ok } from './outcome.ts';
import { faultOf } from './sqlite/fault.ts';

/** Between two tries for the lock [ms]. */
const RETRY = 20;
const LOCK_FILE = 'writer.lock.sqlite';
/** Who holds the lock. For the message only: it may be out of date, the lock never is. */
const HOLDER_FILE = 'writer.json';

/**
 * Does `work` as the one writer of a data directory, across processes.
 *
 * The lock is an exclusive transaction on an empty database: the operating system lets go of it when the process
 * dies, however it dies, so that no stale lock ever has to be judged. Nothing else may open that file: a POSIX lock
 * is lost when its process closes any handle on the file.
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
    const lock = locked(file);
    if (lock.ok) {
      const holder = join(directory, HOLDER_FILE);
      try {
        writeFileSync(holder, `${JSON.stringify({ pid: process.pid })}\n`, { mode: 0o600 });
        return await work();
      } finally {
        rmSync(holder, { force: true });
        lock.value.close();
      }
    }
    if (lock.issues[0]?.code !== 'store/in-use') return lock;
    if (performance.now() >= until) return inUse(directory, wait);
    await pause(RETRY);
  }
}

function locked(file: string): Outcome<Database.Database> {
  let lock: Database.Database | undefined;
  try {
    lock = new Database(file, { timeout: 0 });
    lock.exec('begin exclusive');
    return ok(lock);
  } catch (error) {
    lock?.close();
    return failed(faultOf(error, file));
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

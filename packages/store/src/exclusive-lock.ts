import { existsSync } from 'node:fs';
import Database from 'better-sqlite3';
import { failed, type Outcome, ok } from './outcome.ts';
import { faultOf } from './sqlite/fault.ts';

export interface Lock {
  /** Let go; a process that dies lets go by dying. */
  release(): void;
}

/**
 * A lock across processes, at once or not at all: an exclusive transaction on an empty database. The operating system
 * lets go of it when the process dies, however it dies, so that no stale lock ever has to be judged. Nothing else may
 * open that file: a POSIX lock is lost when its process closes any handle on the file.
 *
 * @returns the lock, or `store/in-use` while another has it
 */
export function exclusiveLock(file: string): Outcome<Lock> {
  let lock: Database.Database | undefined;
  try {
    lock = new Database(file, { timeout: 0 });
    lock.exec('begin exclusive');
    const held = lock;
    return ok({ release: () => held.close() });
  } catch (error) {
    lock?.close();
    return failed(faultOf(error, file));
  }
}

/** Whether somebody has the lock now. Two who ask at once do not take each other for its holder. */
export function isLocked(file: string): boolean {
  if (!existsSync(file)) return false;
  let asked: Database.Database | undefined;
  try {
    asked = new Database(file, { timeout: 0 });
    asked.prepare('select count(*) from sqlite_master').get();
    return false;
  } catch (error) {
    return faultOf(error, file).code === 'store/in-use';
  } finally {
    asked?.close();
  }
}

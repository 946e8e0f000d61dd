import Database from 'better-sqlite3';
import { failed, type Issue, type Outcome } from '../outcome.ts';

/** What SQLite or the disk said that a person can put right, by SQLite's primary result code. */
const FAULTS: Record<string, { code: string; wanted: string; advice: string }> = {
  SQLITE_NOTADB: {
    code: 'store/not-a-database',
    wanted: 'a database made by fettle, or no file',
    advice:
      'It was left as it is. Move it away and import your jobs from an archive, or choose another data directory.',
  },
  SQLITE_CORRUPT: {
    code: 'store/damaged',
    wanted: 'a whole database',
    advice:
      'Part of it cannot be read. Keep a copy, then restore the data directory from a backup or import an archive.',
  },
  SQLITE_BUSY: {
    code: 'store/in-use',
    wanted: 'a database nobody else is writing',
    advice: 'Another process is writing. Wait for it to finish, or stop it, then try again.',
  },
  SQLITE_FULL: {
    code: 'store/disk-full',
    wanted: 'room on the disk',
    advice: 'Nothing was written. Make room on the disk and try again.',
  },
  SQLITE_READONLY: {
    code: 'store/cannot-write',
    wanted: 'a file that may be written',
    advice: 'Give yourself the right to write the data directory, or choose another.',
  },
  SQLITE_CANTOPEN: {
    code: 'store/cannot-open',
    wanted: 'a file that may be opened',
    advice: 'Check that the data directory exists and is yours, or choose another.',
  },
  SQLITE_IOERR: {
    code: 'store/disk-fault',
    wanted: 'a disk that answers',
    advice: 'The disk failed to read or write. Check it, then try again; a copy on another disk is wise.',
  },
};

/** The issue behind an error of SQLite; anything else is a programmer's mistake and is thrown on. */
export function faultOf(error: unknown, path: string): Issue {
  if (error instanceof Database.SqliteError) {
    const primary = error.code.split('_').slice(0, 2).join('_');
    const fault = FAULTS[primary];
    if (fault)
      return {
        code: fault.code,
        at: path,
        got: `${error.message} (${error.code})`,
        wanted: fault.wanted,
        message: `${path}: ${error.message}. ${fault.advice}`,
      };
  }
  throw error;
}

export async function faultsAsIssues<T>(path: string, work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  try {
    return await work();
  } catch (error) {
    return failed(faultOf(error, path));
  }
}

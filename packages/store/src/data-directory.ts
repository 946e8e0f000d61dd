import { existsSync, mkdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { deviceOnFile, deviceSettled } from './device.ts';
import { failed, type Issue, type Outcome, ok } from './outcome.ts';
import { openSqliteStore } from './sqlite/sqlite-store.ts';
import type { Store } from './store.ts';
import { asWriter } from './writer-lock.ts';

const DATABASE_FILE = 'fettle.sqlite';
/** How long a second writer waits for the first [ms]. */
const WAIT = 5000;

/** A person's data in one place: one database, and one writer at a time. */
export interface DataDirectory {
  readonly path: string;
  /** The writer this directory is, as entries name it. */
  readonly device: string;
  /** Reading needs no lock; writing goes through `writing`. */
  readonly store: Store;
  /** Does `work` while no other process writes; waits for one that does. */
  writing<T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>>;
  close(): Promise<void>;
}

/** Opens a data directory, which is made when missing. */
export async function openDataDirectory(
  path: string,
  { wait = WAIT }: { readonly wait?: number } = {},
): Promise<Outcome<DataDirectory>> {
  try {
    return await opened(resolve(path), wait);
  } catch (error) {
    const issue = filesystemFault(error, path);
    if (issue) return failed(issue);
    throw error;
  }
}

async function opened(path: string, wait: number): Promise<Outcome<DataDirectory>> {
  const repository = repositoryAround(path);
  if (repository) return failed(insideRepository(path, repository));
  made(path);
  const database = join(path, DATABASE_FILE);
  // Only a directory that is new, copied or put back needs a writer to settle it. A pending migration does not:
  // it is one transaction, it only adds, and a writer of an older schema is not disturbed by it.
  const onFile = existsSync(database) ? deviceOnFile(path, database) : ok(undefined);
  if (!onFile.ok) return onFile;
  const settled = onFile.value;
  if (settled !== undefined) return withStore(path, database, wait, () => ok(settled));
  return asWriter(path, wait, () => withStore(path, database, wait, () => deviceSettled(path, database)));
}

async function withStore(
  path: string,
  database: string,
  wait: number,
  deviceOf: () => Outcome<string>,
): Promise<Outcome<DataDirectory>> {
  const store = await openSqliteStore(database);
  if (!store.ok) return store;
  const device = deviceOf();
  if (!device.ok) {
    await store.value.close();
    return device;
  }
  return ok({
    path,
    device: device.value,
    store: store.value,
    writing: (work) => asWriter(path, wait, work),
    close: () => store.value.close(),
  });
}

/**
 * Makes a folder and those above it that are missing, one by one: where the system will make none, as under /proc,
 * the recursive way of Node never comes back.
 */
function made(path: string): void {
  const isThere = (): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  if (isThere()) return;
  if (dirname(path) !== path) made(dirname(path));
  try {
    mkdirSync(path, { mode: 0o700 });
  } catch (error) {
    // Another process made it meanwhile.
    if (!isThere()) throw error;
  }
}

/** The folder of this program's repository that a path lies in, if it does. */
function repositoryAround(path: string): string | undefined {
  for (let folder = realPathOf(path); ; folder = dirname(folder)) {
    if (packageName(join(folder, 'package.json')) === 'fettle') return folder;
    if (dirname(folder) === folder) return undefined;
  }
}

/** The real path, links followed as far as there is something to follow. */
function realPathOf(path: string): string {
  if (existsSync(path)) return realpathSync(path);
  return join(realPathOf(dirname(path)), basename(path));
}

function packageName(file: string): unknown {
  try {
    return (JSON.parse(readFileSync(file, 'utf8')) as { name?: unknown } | null)?.name;
  } catch {
    return undefined;
  }
}

function insideRepository(path: string, repository: string): Issue {
  return {
    code: 'store/inside-repository',
    at: path,
    got: `a data directory inside the program's own repository ${repository}`,
    wanted: 'a data directory elsewhere',
    message: `${path} lies in the program's own repository, where data could be published or cleaned away. Choose a directory elsewhere.`,
  };
}

/** What the file system said that a person can put right. */
function filesystemFault(error: unknown, path: string): Issue | undefined {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === undefined || !(error instanceof Error)) return undefined;
  const about = (what: string, wanted: string, advice: string): Issue => ({
    code: what,
    at: path,
    got: message,
    wanted,
    message: `${path} cannot be the data directory (${code}). ${advice}`,
  });
  switch (code) {
    case 'ENOENT':
      return about(
        'store/cannot-open',
        'a directory that can be made',
        'The system makes no directory there. Choose another path.',
      );
    case 'EEXIST':
    case 'ENOTDIR':
      return about('store/not-a-directory', 'a directory', 'A file is in its way. Choose another path.');
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return about(
        'store/cannot-write',
        'a directory that is yours',
        'Give yourself the right to write it, or choose another.',
      );
    case 'ENOSPC':
    case 'EDQUOT':
      return about('store/disk-full', 'room on the disk', 'Make room on the disk and try again.');
    default:
      return code.startsWith('E') && !code.startsWith('ERR_')
        ? about(
            'store/cannot-open',
            'a directory that can be made and read',
            `${message}. Choose another path.`,
          )
        : undefined;
  }
}

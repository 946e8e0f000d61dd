import { type ChildProcess, spawn } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type DataDirectory, openDataDirectory } from './data-directory.ts';
import { ok } from './outcome.ts';
import { codesOf, goodValue } from './testing/outcomes.ts';

let folder: string;
let data: string;
const opened: DataDirectory[] = [];
const children: ChildProcess[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-data-'));
  data = join(folder, 'deep', 'data');
});
afterEach(async () => {
  for (const directory of opened.splice(0)) await directory.close();
  for (const child of children.splice(0)) child.kill('SIGKILL');
  rmSync(folder, { recursive: true });
});

async function open(path = data, wait = 5000): Promise<DataDirectory> {
  const directory = goodValue(await openDataDirectory(path, { wait }));
  opened.push(directory);
  return directory;
}

async function deviceAfterClosing(path = data): Promise<string> {
  const directory = await open(path);
  await opened.pop()!.close();
  return directory.device;
}

/** Another process that holds the lock as a writer does, until it is killed. */
async function otherWriter(path: string): Promise<ChildProcess> {
  const module = fileURLToPath(import.meta.resolve('better-sqlite3'));
  const child = spawn(process.execPath, [
    '-e',
    `const Database = require(${JSON.stringify(module)});
     const lock = new Database(process.argv[1] + '/writer.lock.sqlite');
     lock.exec('begin exclusive');
     require('node:fs').writeFileSync(process.argv[1] + '/writer.json', JSON.stringify({ pid: process.pid }));
     console.log('held');
     setInterval(() => lock.open, 1000);`,
    path,
  ]);
  children.push(child);
  await new Promise((resolve, reject) => {
    child.stdout?.once('data', resolve);
    child.once('exit', (code) => reject(new Error(`the other writer ended with ${code}`)));
  });
  return child;
}

it('makes the directory for its owner only and stays the same writer', async () => {
  const device = await deviceAfterClosing();
  expect(statSync(data).mode & 0o777).toBe(0o700);
  expect(await deviceAfterClosing()).toBe(device);
  expect(JSON.parse(readFileSync(join(data, 'device.json'), 'utf8'))).toMatchObject({ device, formerly: [] });
});

it('is a new writer in a copy, and remembers which it was', async () => {
  const device = await deviceAfterClosing();
  const copy = join(folder, 'copy');
  cpSync(data, copy, { recursive: true });
  const other = await deviceAfterClosing(copy);
  expect(other).not.toBe(device);
  expect(JSON.parse(readFileSync(join(copy, 'device.json'), 'utf8'))).toMatchObject({ formerly: [device] });
  expect(await deviceAfterClosing(copy)).toBe(other);
  expect(await deviceAfterClosing()).toBe(device);
});

it('is a new writer when a backup was put back in its place', async () => {
  const device = await deviceAfterClosing();
  const backup = join(folder, 'backup');
  cpSync(data, backup, { recursive: true });
  renameSync(data, join(folder, 'lost'));
  cpSync(backup, data, { recursive: true });
  expect(await deviceAfterClosing()).not.toBe(device);
});

it('is the same writer through a link', async () => {
  const device = await deviceAfterClosing();
  symlinkSync(data, join(folder, 'link'));
  expect(await deviceAfterClosing(join(folder, 'link'))).toBe(device);
});

it('asks for a device file that can be read, and says that it may be deleted', async () => {
  await deviceAfterClosing();
  writeFileSync(join(data, 'device.json'), '{"device": 7');
  expect(codesOf(await openDataDirectory(data))).toEqual(['store/device-file']);
  rmSync(join(data, 'device.json'));
  expect(await deviceAfterClosing()).toMatch(/^[0-9a-f-]{36}$/);
});

it('lets writers of one process take turns', async () => {
  const [one, two] = [await open(), await open()];
  let inside = 0;
  const turns = [one, two, one, two, one].map((directory, turn) =>
    directory.writing(async () => {
      expect(++inside).toBe(1);
      await new Promise((resolve) => setTimeout(resolve, 5));
      inside--;
      return ok(turn);
    }),
  );
  expect((await Promise.all(turns)).map(goodValue)).toEqual([0, 1, 2, 3, 4]);
});

it('tells who is writing when it waited long enough, reads meanwhile, and writes once that process is killed', async () => {
  await deviceAfterClosing();
  const other = await otherWriter(data);
  const directory = await open(data, 150);
  expect(goodValue(await directory.store.jobs())).toEqual([]);
  const before = performance.now();
  const refused = await directory.writing(async () => ok('written'));
  expect(performance.now() - before).toBeGreaterThanOrEqual(150);
  expect(codesOf(refused)).toEqual(['store/in-use']);
  expect(refused).toMatchObject({ issues: [{ got: expect.stringContaining(String(other.pid)) }] });
  const gone = new Promise((resolve) => other.once('exit', resolve));
  other.kill('SIGKILL');
  await gone;
  expect(goodValue(await directory.writing(async () => ok('written')))).toBe('written');
});

it('lets go of the lock when the work throws', async () => {
  const directory = await open(data, 0);
  const thrown = directory.writing(async () => {
    throw new Error('a mistake');
  });
  await expect(thrown).rejects.toThrow('a mistake');
  expect(goodValue(await directory.writing(async () => ok(1)))).toBe(1);
});

it("refuses a place inside the program's own repository, through a link too", async () => {
  const repository = join(folder, 'clone');
  mkdirSync(join(repository, 'packages'), { recursive: true });
  writeFileSync(join(repository, 'package.json'), '{"name": "fettle"}');
  symlinkSync(join(repository, 'packages'), join(folder, 'link'));
  for (const path of [repository, join(repository, 'packages', 'a', 'b'), join(folder, 'link', 'a')])
    expect(codesOf(await openDataDirectory(path))).toEqual(['store/inside-repository']);
  const here = fileURLToPath(new URL('data', import.meta.url));
  expect(codesOf(await openDataDirectory(here))).toEqual(['store/inside-repository']);
});

it('answers a place where the system makes no directory, instead of trying for ever', async () => {
  if (process.platform !== 'linux') return;
  expect(codesOf(await openDataDirectory('/proc/fettle-makes-none/below'))).toEqual(['store/cannot-open']);
});

it('answers a file in the way, and a database that is none, with an issue', async () => {
  writeFileSync(join(folder, 'file'), '');
  expect(codesOf(await openDataDirectory(join(folder, 'file')))).toEqual(['store/not-a-directory']);
  expect(codesOf(await openDataDirectory(join(folder, 'file', 'below')))).toEqual(['store/not-a-directory']);
  mkdirSync(data, { recursive: true });
  writeFileSync(join(data, 'fettle.sqlite'), 'this is no database'.repeat(50));
  expect(codesOf(await openDataDirectory(data))).toEqual(['store/not-a-database']);
});

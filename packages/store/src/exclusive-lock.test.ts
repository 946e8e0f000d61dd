import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { exclusiveLock, isLocked } from './exclusive-lock.ts';
import { codesOf, goodValue } from './testing/outcomes.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-lock-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

it('is held by one at a time, and is free again once let go', () => {
  const file = join(folder, 'a.lock.sqlite');
  expect(isLocked(file)).toBe(false);
  const lock = goodValue(exclusiveLock(file));
  expect(isLocked(file)).toBe(true);
  expect(codesOf(exclusiveLock(file))).toEqual(['store/in-use']);
  // Asking must not let go of it.
  expect(isLocked(file)).toBe(true);
  lock.release();
  expect(isLocked(file)).toBe(false);
  goodValue(exclusiveLock(file)).release();
});

it('says of a file that is no lock what it is', () => {
  const file = join(folder, 'b.lock.sqlite');
  writeFileSync(file, 'not a database, and longer than any header of one could ever need to be. '.repeat(20));
  expect(codesOf(exclusiveLock(file))).toEqual(['store/not-a-database']);
  expect(isLocked(file)).toBe(false);
});

import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chainFaults, type Entry, readEntry } from '@fettle/book';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDataDirectory } from './data-directory.ts';
import { goodValue } from './testing/outcomes.ts';
import { JOB } from './testing/sample-ledger.ts';

const BUILT = fileURLToPath(new URL('../dist/index.js', import.meta.url));
const CHILD = fileURLToPath(new URL('testing/writing-child.mjs', import.meta.url));
const KILLS = 200;
/** Writers at once on one data directory. */
const WRITERS = 2;
/** Rounds in one data directory before a new one, so that kills also meet a directory being made. */
const ROUNDS = 10;

let folder: string;
beforeAll(() => {
  if (!existsSync(BUILT))
    throw new Error(
      `${BUILT} is not there: this test kills the built program. Run npm run build, then this again.`,
    );
  folder = mkdtempSync(join(tmpdir(), 'fettle-killed-'));
});
afterAll(() => folder && rmSync(folder, { recursive: true }));

/**
 * Runs a writer and kills it with SIGKILL at a random moment: of its start, or of its writing.
 *
 * @returns the ids it had acknowledged, whole lines only
 */
function acknowledgedUntilKilled(data: string): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [CHILD, data, JOB], { stdio: ['ignore', 'pipe', 'pipe'] });
    const kill = () => child.kill('SIGKILL');
    let said = '';
    let complaint = '';
    if (Math.random() < 0.3) setTimeout(kill, Math.random() * 600);
    else child.stdout.once('data', () => setTimeout(kill, Math.random() * 60));
    child.stdout.on('data', (chunk) => {
      said += chunk;
    });
    child.stderr.on('data', (chunk) => {
      complaint += chunk;
    });
    child.once('error', reject);
    child.once('close', (code, signal) => {
      if (signal === 'SIGKILL') resolve(said.split('\n').slice(0, -1));
      else reject(new Error(`the writer ended by itself with ${code}: ${complaint}`));
    });
  });
}

async function entriesIn(data: string): Promise<readonly Entry[]> {
  const directory = goodValue(await openDataDirectory(data));
  const { entries } = goodValue(await directory.store.entries(JOB));
  await directory.close();
  return entries;
}

it(`loses no acknowledged entry and leaves no half one when killed ${KILLS} times, two writers at a time`, async () => {
  let kills = 0;
  let acknowledgedInAll = 0;
  for (let made = 0; kills < KILLS; made++) {
    const data = join(folder, String(made));
    const acknowledged = new Set<string>();
    for (let round = 0; round < ROUNDS && kills < KILLS; round++) {
      const writers = Array.from({ length: WRITERS }, () => acknowledgedUntilKilled(data));
      for (const ids of await Promise.all(writers)) for (const id of ids) acknowledged.add(id);
      kills += WRITERS;

      const entries = await entriesIn(data);
      const there = new Set(entries.map(({ id }) => id));
      expect([...acknowledged].filter((id) => !there.has(id))).toEqual([]);
      expect(entries.map(readEntry).filter(({ ok }) => !ok)).toEqual([]);
      expect(chainFaults(entries)).toEqual({ forks: [], broken: [] });
      expect(entries.map(({ n }) => n)).toEqual(entries.map((_, index) => index + 1));
      expect(new Set(entries.map(({ device }) => device)).size).toBeLessThanOrEqual(1);
      // A batch is there whole or not at all: its parts follow one another.
      const parts = entries.map(({ body }) => Number(String(body.text).split(' ')[2]));
      expect(parts).toEqual(entries.map((_, index) => (index % 3) + 1));
    }
    acknowledgedInAll += acknowledged.size;
    const database = new Database(join(data, 'fettle.sqlite'), { readonly: true });
    expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
    database.close();
  }
  expect(kills).toBe(KILLS);
  // Three for each kill at least, or the kills came too early to mean anything.
  expect(acknowledgedInAll).toBeGreaterThan(3 * KILLS);
}, 300_000);

// An invented job of any length: the demo as it is entered at the command line, then its readings taken over and over.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { contentHash, newEntryId, nextEntry, readSheet } from '@fettle/book';

const CLI = fileURLToPath(new URL('../packages/cli', import.meta.url));

function idOf(n) {
  const random = new Uint8Array(10);
  new DataView(random.buffer).setUint32(6, n);
  return newEntryId(1_900_000_000_000 + n, random);
}

/** The demo's entries, and its sheet by its hash. */
export function demoJob() {
  const directory = mkdtempSync(join(tmpdir(), 'fettle-bench-'));
  const env = { ...process.env, FETTLE_DATA: directory };
  const fettle = (...args) =>
    execFileSync(process.execPath, [join(CLI, 'bin/fettle.js'), ...args], { env, maxBuffer: 1 << 27 });
  try {
    fettle('new', '--demo', 'linnet');
    const entries = JSON.parse(fettle('log', 'linnet', '--json')).map(({ struck: _, ...entry }) => entry);
    const read = readSheet(JSON.parse(readFileSync(join(CLI, 'demo/linnet/spec-sheet.json'), 'utf8')));
    if (!read.ok) throw new Error('the demo’s sheet is at fault');
    return { entries, sheets: new Map([[contentHash(read.value), read.value]]) };
  } finally {
    rmSync(directory, { recursive: true, force: true });
  }
}

/** `count` entries: the demo's, then its readings taken again in turn by another device, each after the one before. */
export function grownTo(count, demo) {
  const entries = [...demo];
  const readings = demo.filter(({ kind }) => kind === 'reading');
  let before = demo;
  for (let n = 0; entries.length < count; n++) {
    const pen = {
      job: demo[0].job,
      device: 'bench-more',
      who: 'Sam',
      at: '2026-03-01T10:00:00Z',
      id: idOf(n),
    };
    const entry = nextEntry(before, pen, 'reading', readings[n % readings.length].body);
    entries.push(entry);
    // Only the last entry matters to the next of a single device that has seen the rest.
    before = [entry];
  }
  return entries;
}

import { type Entry, merged } from '@fettle/book';
import { type ZipOptions, zipSync } from 'fflate';
import { HASH } from '../admission.ts';
import { canonicalText } from '../canonical-text.ts';
import { failed, type Outcome, ok } from '../outcome.ts';
import type { Photo, Store } from '../store.ts';
import { FORMAT, FORMAT_VERSION, MADE_BY, MANIFEST_FILE, type Manifest } from './manifest.ts';
import { LARGEST_ARCHIVE } from './zip-file.ts';

export const LEDGER_FILE = 'ledger.ndjson';
export const sheetFile = (hash: string): string => `sheets/${hash}.json`;
export const photoFile = (hash: string): string => `photos/${hash}`;

/**
 * A job as one ZIP: its ledger in folding order, and every sheet and photo here that its entries name. The same job
 * gives the same bytes, on any day and in any store.
 *
 * An entry names a sheet or photo by having its hash anywhere in its body; so a kind this program does not know
 * travels with what belongs to it.
 */
export async function archiveOf(store: Store, job: string): Promise<Outcome<Uint8Array>> {
  const there = await store.entries(job);
  if (!there.ok) return there;
  const entries = merged(there.value.entries, []);
  if (entries.length === 0)
    return failed({
      code: 'store/no-such-job',
      at: job,
      got: 'no entries',
      wanted: 'a job in this data directory',
      message: `There is no job ${job} here. List the jobs and choose one of them.`,
    });
  const sheets = new Map<string, unknown>();
  const photos = new Map<string, Photo>();
  for (const hash of hashesIn(entries)) {
    const sheet = await store.sheet(hash);
    if (!sheet.ok) return sheet;
    if (sheet.value !== undefined) sheets.set(hash, sheet.value);
    const photo = await store.photo(hash);
    if (!photo.ok) return photo;
    if (photo.value) photos.set(hash, photo.value);
  }
  const manifest: Manifest = {
    format: FORMAT,
    version: FORMAT_VERSION,
    job,
    entries: entries.length,
    sheets: [...sheets.keys()],
    photos: [...photos].map(([hash, { media }]) => ({ hash, media })),
    made_by: MADE_BY,
  };
  return zipped(manifest, entries, sheets, photos);
}

function zipped(
  manifest: Manifest,
  entries: readonly Entry[],
  sheets: ReadonlyMap<string, unknown>,
  photos: ReadonlyMap<string, Photo>,
): Outcome<Uint8Array> {
  const utf8 = new TextEncoder();
  const files: Record<string, Uint8Array | [Uint8Array, ZipOptions]> = {
    [MANIFEST_FILE]: utf8.encode(`${JSON.stringify(manifest, undefined, 2)}\n`),
    [LEDGER_FILE]: utf8.encode(entries.map((entry) => `${canonicalText(entry)}\n`).join('')),
  };
  for (const [hash, json] of sheets) files[sheetFile(hash)] = utf8.encode(canonicalText(json));
  // Pictures are packed already.
  for (const [hash, { bytes }] of photos) files[photoFile(hash)] = [bytes, { level: 0 }];
  const total = Object.values(files).reduce(
    (sum, file) => sum + (Array.isArray(file) ? file[0] : file).length,
    0,
  );
  if (total > LARGEST_ARCHIVE)
    return failed({
      code: 'archive/too-large',
      at: manifest.job,
      got: `${total} bytes`,
      wanted: `at most ${LARGEST_ARCHIVE} bytes`,
      message: `The job is too large for an archive (${total} bytes of ${LARGEST_ARCHIVE}). Copy the data directory instead.`,
    });
  // A ZIP has local time without a zone: the same hands on the clock everywhere, the earliest day it can say,
  // at noon, which no zone ever skipped.
  return ok(zipSync(files, { mtime: new Date(1980, 0, 1, 12), level: 6 }));
}

/** Every SHA-256 named in the bodies, sorted. */
function hashesIn(entries: readonly Entry[]): string[] {
  const hashes = new Set<string>();
  const visit = (value: unknown): void => {
    if (typeof value === 'string') {
      if (HASH.test(value)) hashes.add(value);
    } else if (typeof value === 'object' && value !== null)
      for (const inside of Object.values(value)) visit(inside);
  };
  for (const entry of entries) visit(entry.body);
  return [...hashes].sort();
}

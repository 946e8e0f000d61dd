import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contentHash, type Entry } from '@fettle/book';
import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openSqliteStore } from '../sqlite/sqlite-store.ts';
import type { Store } from '../store.ts';
import { codesOf, goodValue } from '../testing/outcomes.ts';
import { JOB, newerEntry, OTHER_JOB, sampleId, sampleLedger } from '../testing/sample-ledger.ts';
import { archiveOf } from './archive.ts';
import { imported } from './importing.ts';
import { readArchive } from './reading.ts';

const SHEET = { title: 'Sheet', characteristics: [{ id: 'pump.end-clearance', wear: { upper: '10 thou' } }] };
const PICTURE = Uint8Array.from({ length: 3000 }, (_, n) => (n * n) % 251);
const PICTURE_HASH = createHash('sha256').update(PICTURE).digest('hex');
const SHEET_HASH = contentHash(SHEET);

let folder: string;
let store: Store;
let ledger: Entry[];
let archive: Uint8Array;
const others: Store[] = [];

async function fresh(): Promise<Store> {
  const made = goodValue(await openSqliteStore(join(folder, `${others.length}.sqlite`)));
  others.push(made);
  return made;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-archive-'));
  store = await fresh();
  ledger = sampleLedger(['Strip down', 'Second']);
  ledger.push(newerEntry(ledger, sampleId(3), { marks: [{ picture: PICTURE_HASH }], sheet: SHEET_HASH }));
  goodValue(await store.append({ entries: [...ledger].reverse() }));
  goodValue(await store.append({ entries: sampleLedger(['elsewhere'], { job: OTHER_JOB, first: 50 }) }));
  goodValue(await store.putSheet(SHEET_HASH, SHEET));
  goodValue(await store.putPhoto(PICTURE, 'image/jpeg'));
  goodValue(await store.putPhoto(new Uint8Array([1]), 'image/jpeg'));
  archive = goodValue(await archiveOf(store, JOB));
});
afterAll(async () => {
  for (const other of others) await other.close();
  rmSync(folder, { recursive: true });
});

/** The archive with one of its files changed, added or (undefined) left out. */
function changed(name: string, content: (text: string) => string | undefined): Uint8Array {
  const files = unzipSync(archive);
  const text = content(files[name] ? strFromU8(files[name]) : '');
  if (text === undefined) delete files[name];
  else files[name] = strToU8(text);
  return zipSync(files);
}
const withManifest = (change: Record<string, unknown>): Uint8Array =>
  changed('manifest.json', (text) => JSON.stringify({ ...JSON.parse(text), ...change }));
const withLine = (line: string): Uint8Array =>
  changed('ledger.ndjson', (text) => text.replace(/\n.*\n/, () => `\n${line}\n`));

it('holds the ledger in folding order, and the sheets and photos its entries name, for any unzip to read', () => {
  const files = unzipSync(archive);
  expect(Object.keys(files)).toEqual([
    'manifest.json',
    'ledger.ndjson',
    `sheets/${SHEET_HASH}.json`,
    `photos/${PICTURE_HASH}`,
  ]);
  expect(JSON.parse(strFromU8(files['manifest.json']!))).toEqual({
    format: 'fettle-archive',
    version: 1,
    job: JOB,
    entries: 3,
    sheets: [SHEET_HASH],
    photos: [{ hash: PICTURE_HASH, media: 'image/jpeg' }],
    made_by: 'fettle 0.1.0',
  });
  const lines = strFromU8(files['ledger.ndjson']!).split('\n');
  expect(lines.pop()).toBe('');
  expect(lines.map((line) => JSON.parse(line))).toEqual(ledger);
  // What a line says is what the next page's chain link was taken from.
  expect(createHash('sha256').update(lines[0]!).digest('hex')).toBe(ledger[1]!.prev);
  expect(files[`photos/${PICTURE_HASH}`]).toEqual(PICTURE);
});

it('comes back the same in another store, twice as well as once, and goes out with the same bytes', async () => {
  const other = await fresh();
  const content = goodValue(readArchive(archive));
  expect(goodValue(await imported(other, content)).added).toEqual(ledger.map(({ id }) => id));
  expect(goodValue(await imported(other, content))).toEqual({
    added: [],
    known: ledger.map(({ id }) => id),
    reused: [],
  });
  expect(goodValue(await other.photo(PICTURE_HASH))).toEqual({ media: 'image/jpeg', bytes: PICTURE });
  expect(goodValue(await other.sheet(SHEET_HASH))).toEqual(SHEET);
  expect(goodValue(await archiveOf(other, JOB))).toEqual(archive);
});

it('merges with what the other store has of the job', async () => {
  const other = await fresh();
  const theirs = sampleLedger(['theirs'], { device: 'phone', first: 20 });
  goodValue(await other.append({ entries: [...theirs, ledger[0]] }));
  expect(goodValue(await imported(other, goodValue(readArchive(archive))))).toEqual({
    added: [ledger[1]!.id, ledger[2]!.id],
    known: [ledger[0]!.id],
    reused: [],
  });
  expect(goodValue(await other.entries(JOB)).entries).toHaveLength(4);
});

it('keeps what is here beside an entry of the same id, and takes both along again', async () => {
  const other = await fresh();
  goodValue(await other.append({ entries: [{ ...ledger[2], who: 'Kim' }] }));
  expect(goodValue(await imported(other, goodValue(readArchive(archive)))).reused).toEqual([ledger[2]!.id]);
  expect(goodValue(await other.entries(JOB)).entries).toHaveLength(4);
  const both = goodValue(await archiveOf(other, JOB));
  const third = await fresh();
  await imported(third, goodValue(readArchive(both)));
  expect(goodValue(await third.entries(JOB)).entries).toHaveLength(4);
  expect(goodValue(await archiveOf(third, JOB))).toEqual(both);
});

it('has the same bytes in every time zone', async () => {
  const zone = process.env.TZ;
  try {
    for (const other of ['Pacific/Kiritimati', 'America/St_Johns', 'UTC']) {
      process.env.TZ = other;
      expect(goodValue(await archiveOf(store, JOB))).toEqual(archive);
    }
  } finally {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  }
});

it('does not come of a job that is not here', async () => {
  expect(codesOf(await archiveOf(store, sampleId(77)))).toEqual(['store/no-such-job']);
});

it('is read after it was unpacked and packed again with its folders', () => {
  const files = { ...unzipSync(archive), 'photos/': new Uint8Array(), 'sheets/': new Uint8Array() };
  expect(goodValue(readArchive(zipSync(files))).entries).toEqual(ledger);
});

it.each<[string, () => Uint8Array, string, string]>([
  ['an empty file', () => new Uint8Array(), 'archive/not-a-zip', 'byte 0'],
  ['a text', () => strToU8('characteristic,lower\n'.repeat(9)), 'archive/not-a-zip', 'byte 0'],
  ['half an archive', () => archive.subarray(0, archive.length / 2), 'archive/truncated', 'byte '],
  [
    'a ZIP of something else',
    () => zipSync({ 'a.txt': strToU8('a') }),
    'archive/file-missing',
    'manifest.json',
  ],
  ['a ZIP of nothing', () => zipSync({}), 'archive/file-missing', 'manifest.json'],
  [
    'a manifest that is no JSON',
    () => changed('manifest.json', () => '{"format":'),
    'archive/manifest',
    'manifest.json',
  ],
  [
    'a manifest that is a list',
    () => changed('manifest.json', () => '[]'),
    'archive/manifest',
    'manifest.json',
  ],
  ['another format', () => withManifest({ format: 'other' }), 'archive/format', 'manifest.json/format'],
  [
    'a later version',
    () => withManifest({ version: 2, more: 1 }),
    'archive/version',
    'manifest.json/version',
  ],
  ['a job that is no UUID', () => withManifest({ job: '../1' }), 'archive/manifest', 'manifest.json/job'],
  ['a key not known', () => withManifest({ extra: 1 }), 'archive/manifest', 'manifest.json/extra'],
  [
    'a path for a hash',
    () => withManifest({ sheets: ['../../x'] }),
    'archive/manifest',
    'manifest.json/sheets',
  ],
  [
    'a photo twice',
    () => withManifest({ photos: Array(2).fill({ hash: PICTURE_HASH, media: 'a/b' }) }),
    'archive/manifest',
    'manifest.json/photos',
  ],
  ['fewer entries than said', () => withManifest({ entries: 4 }), 'archive/entry-count', 'ledger.ndjson'],
  ['no ledger', () => changed('ledger.ndjson', () => undefined), 'archive/file-missing', 'ledger.ndjson'],
  ['an empty ledger', () => changed('ledger.ndjson', () => ''), 'archive/entry-count', 'ledger.ndjson'],
  [
    'a sheet the manifest names but is not there',
    () => changed(`sheets/${SHEET_HASH}.json`, () => undefined),
    'archive/file-missing',
    `sheets/${SHEET_HASH}.json`,
  ],
  [
    'a file nobody named',
    () => changed('../../.profile', () => 'x'),
    'archive/file-unexpected',
    '../../.profile',
  ],
  [
    'a file named __proto__',
    () => changed('photos/__proto__', () => 'x'),
    'archive/file-unexpected',
    'photos/__proto__',
  ],
  ['a line that is no JSON', () => withLine('{"id":'), 'archive/not-json', 'ledger.ndjson, line 2'],
  ['an empty line', () => withLine(''), 'archive/not-json', 'ledger.ndjson, line 2'],
  ['a line that is no entry', () => withLine('{"id": 7}'), 'entry/malformed', 'ledger.ndjson, line 2, /id'],
  ['an endless number', () => withLine('{"id": 1e999}'), 'json/not-finite', 'ledger.ndjson, line 2, /id'],
  [
    'a line nested without end',
    () => withLine(`${'['.repeat(1e5)}${']'.repeat(1e5)}`),
    'json/too-deep',
    'ledger.ndjson, line 2',
  ],
  [
    'an entry twice',
    () => withLine(JSON.stringify(ledger[0])),
    'archive/entry-twice',
    'ledger.ndjson, line 2',
  ],
  [
    'an entry of another job',
    () => withLine(JSON.stringify({ ...ledger[1], job: OTHER_JOB })),
    'archive/other-job',
    'ledger.ndjson, line 2',
  ],
  [
    'a body that breaks its schema',
    () => withLine(JSON.stringify({ ...ledger[1], body: { text: 7 } })),
    'entry/malformed-body',
    'ledger.ndjson, line 2, /body/text',
  ],
  [
    'a changed sheet',
    () => changed(`sheets/${SHEET_HASH}.json`, (text) => text.replace('10 thou', '12 thou')),
    'sheet/hash-differs',
    `sheets/${SHEET_HASH}.json`,
  ],
  [
    'a changed photo',
    () => changed(`photos/${PICTURE_HASH}`, () => 'x'),
    'photo/hash-differs',
    `photos/${PICTURE_HASH}`,
  ],
])('is refused with where and what: %s', (_, bytes, code, at) => {
  const outcome = readArchive(bytes());
  expect(codesOf(outcome)).toContain(code);
  if (outcome.ok) return;
  expect(outcome.issues.map((issue) => issue.at).find((where) => where.startsWith(at))).toBeDefined();
  for (const issue of outcome.issues) {
    for (const words of [issue.at, issue.got, issue.wanted, issue.message]) expect(words).not.toBe('');
    expect(issue.message.length).toBeLessThan(1000);
  }
});

it('refuses bytes that are not UTF-8, by line', () => {
  const files = unzipSync(archive);
  const line = files['ledger.ndjson']!;
  line[line.indexOf(10) + 3] = 0xff;
  expect(readArchive(zipSync(files))).toMatchObject({
    issues: [{ code: 'archive/not-utf-8', at: 'ledger.ndjson, line 2' }],
  });
});

it('is refused wherever it is cut off', () => {
  fc.assert(
    fc.property(fc.nat(archive.length - 1), (length) => {
      expect(readArchive(archive.subarray(0, length)).ok).toBe(false);
    }),
  );
});

it('is refused or read as it was when any of its bytes is changed', () => {
  const whole = goodValue(readArchive(archive));
  fc.assert(
    fc.property(fc.nat(archive.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
      const bytes = archive.slice();
      bytes[at]! ^= change;
      const outcome = readArchive(bytes);
      // A date or an attribute may change; no content can without its checksum noticing.
      if (outcome.ok) expect(outcome.value).toEqual(whole);
      else expect(outcome.issues.length).toBeGreaterThan(0);
    }),
    { numRuns: 2000 },
  );
});

import { strToU8, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { codesOf, goodValue } from '../testing/outcomes.ts';
import { filesInZip } from './zip-file.ts';

const TEXT = strToU8('readings and verdicts\n'.repeat(200));

/** Where the table of contents has its first entry. */
function tableIn(zip: Uint8Array): number {
  return new DataView(zip.buffer).getUint32(zip.length - 22 + 16, true);
}

/** The ZIP with 32 bits of the first entry of its table of contents replaced. */
function patched(zip: Uint8Array, offset: number, value: number): Uint8Array {
  const copy = zip.slice();
  new DataView(copy.buffer).setUint32(tableIn(copy) + offset, value, true);
  return copy;
}

it('reads stored and deflated files that another program packed', () => {
  const files = goodValue(
    filesInZip(zipSync({ 'a/b': TEXT, c: [TEXT, { level: 0 }], none: new Uint8Array() })),
  );
  expect(files.map(({ name }) => name)).toEqual(['a/b', 'c', 'none']);
  expect(files.map(({ bytesOf }) => goodValue(bytesOf()))).toEqual([TEXT, TEXT, new Uint8Array()]);
});

it('reads a ZIP with a comment, and one that lies in a larger buffer', () => {
  const zip = zipSync({ a: TEXT });
  const commented = new Uint8Array(zip.length + 3);
  commented.set(zip);
  commented[zip.length - 2] = 3;
  const within = new Uint8Array(zip.length + 50);
  within.set(zip, 20);
  for (const bytes of [commented, within.subarray(20, 20 + zip.length)])
    expect(goodValue(goodValue(filesInZip(bytes))[0]!.bytesOf())).toEqual(TEXT);
});

it('refuses a file that claims to be larger than its data can be, before unpacking anything', () => {
  const bomb = patched(zipSync({ a: TEXT }), 24, 400 * 2 ** 20);
  expect(filesInZip(bomb)).toMatchObject({ ok: false, issues: [{ code: 'archive/broken-zip', at: 'a' }] });
});

it('refuses more than half a gibibyte in all', () => {
  const huge = patched(patched(zipSync({ a: TEXT }), 20, 0xfffffff0), 24, 600 * 2 ** 20);
  expect(codesOf(filesInZip(huge))).toEqual(['archive/broken-zip']);
});

it('stops at the size that was claimed when there is more inside', () => {
  const zeros = patched(zipSync({ a: new Uint8Array(10 * 2 ** 20) }), 24, 1000);
  const [file] = goodValue(filesInZip(zeros));
  expect(file!.size).toBe(1000);
  expect(codesOf(file!.bytesOf())).toEqual(['archive/broken-zip']);
});

it('refuses data that fails its checksum, encrypted data, and a place outside the file', () => {
  const zip = zipSync({ a: TEXT });
  for (const bad of [patched(zip, 16, 1), patched(zip, 8, 1 | (8 << 16)), patched(zip, 42, 0xfffffff0)])
    expect(codesOf(goodValue(filesInZip(bad))[0]!.bytesOf())).toEqual(['archive/broken-zip']);
});

it('refuses the same name twice', () => {
  const zip = zipSync({ aa: TEXT, ab: TEXT });
  const second = zip.lastIndexOf('b'.charCodeAt(0));
  zip[second] = 'a'.charCodeAt(0);
  expect(filesInZip(zip)).toMatchObject({ ok: false, issues: [{ at: 'aa', got: 'the name twice' }] });
});

it('refuses a table of contents that is longer than the file', () => {
  const zip = zipSync({ a: TEXT });
  zip[zip.length - 22 + 10] = 9;
  expect(codesOf(filesInZip(zip))).toEqual(['archive/broken-zip']);
});

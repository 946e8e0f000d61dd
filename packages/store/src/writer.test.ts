import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chainFaults, contentHash } from '@fettle/book';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type DataDirectory, openDataDirectory } from './data-directory.ts';
import { codesOf, goodValue } from './testing/outcomes.ts';
import { JOB, sampleId, sampleLedger } from './testing/sample-ledger.ts';
import { type Draft, type Writer, written } from './writer.ts';

let folder: string;
let directory: DataDirectory;
const WRITER: Writer = {
  job: JOB,
  who: 'Sam',
  now: Date.UTC(2026, 2, 1, 10),
  random: (count) => new Uint8Array(count).fill(0xab),
};
const note = (text: string, id?: string): Draft => ({ kind: 'note', body: { text }, ...(id && { id }) });

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fettle-writer-'));
  directory = goodValue(await openDataDirectory(join(folder, 'data')));
});
afterEach(async () => {
  await directory.close();
  rmSync(folder, { recursive: true });
});

const there = async () => goodValue(await directory.store.entries(JOB)).entries;

it('writes a batch as one chain whose ids sort as written', async () => {
  const first = goodValue(await written(directory, WRITER, [note('a'), note('b'), note('c')]));
  const second = goodValue(await written(directory, { ...WRITER, now: WRITER.now + 60_000 }, [note('d')]));
  const all = [...first, ...second];
  expect(await there()).toEqual(all);
  expect(all.map(({ n, tick }) => [n, tick])).toEqual([1, 2, 3, 4].map((n) => [n, n]));
  expect(all.map(({ id }) => id)).toEqual(all.map(({ id }) => id).sort());
  expect(all.map(({ device }) => device)).toEqual(Array(4).fill(directory.device));
  expect(chainFaults(all)).toEqual({ forks: [], broken: [] });
  expect(all[0]).toMatchObject({ at: '2026-03-01T10:00:00.000Z', who: 'Sam', prev: null, seen: {} });
});

it('writes after what came from another device, and says that it saw it', async () => {
  goodValue(await directory.store.append({ entries: sampleLedger(['x', 'y'], { device: 'phone' }) }));
  const [entry] = goodValue(await written(directory, WRITER, [note('a')]));
  expect(entry).toMatchObject({ n: 1, tick: 3, prev: null, seen: { phone: 2 } });
});

it('writes drafts with settled ids once, however often they are given', async () => {
  const drafts = [note('a', sampleId(1)), note('b', sampleId(2))];
  const first = goodValue(await written(directory, WRITER, drafts));
  const again = goodValue(
    await written(directory, { ...WRITER, now: WRITER.now + 1 }, [...drafts, note('c', sampleId(3))]),
  );
  expect(again.slice(0, 2)).toEqual(first);
  expect(await there()).toEqual(again);
});

it('refuses a settled id with other content, and writes nothing', async () => {
  goodValue(await written(directory, WRITER, [note('a', sampleId(1))]));
  expect(codesOf(await written(directory, WRITER, [note('b'), note('A', sampleId(1))]))).toEqual([
    'entry/id-reused',
  ]);
  expect(await there()).toHaveLength(1);
});

it('writes nothing when one body is wrong, and says which', async () => {
  const refused = await written(directory, WRITER, [note('a'), note('')]);
  expect(refused).toMatchObject({
    ok: false,
    issues: [{ code: 'entry/malformed-body', at: '/entries/1/body/text' }],
  });
  expect(await there()).toEqual([]);
});

it('keeps a sheet together with the entry that adopts it', async () => {
  const json = { title: 'Sheet' };
  const sheet = contentHash(json);
  const adopted: Draft = { kind: 'spec-adopted', body: { sheet, title: 'Sheet' } };
  goodValue(await written(directory, WRITER, [adopted], { sheets: [{ hash: sheet, json }] }));
  expect(goodValue(await directory.store.sheet(sheet))).toEqual(json);
});

it('keeps one chain when several write at once', async () => {
  const batches = Array.from({ length: 8 }, (_, n) => {
    const writer = { ...WRITER, now: WRITER.now + n * 1000 };
    return written(directory, writer, [note(`${n} first`), note(`${n} second`)]);
  });
  for (const batch of await Promise.all(batches)) expect(codesOf(batch)).toEqual([]);
  const all = await there();
  expect(all.map(({ n }) => n)).toEqual(Array.from({ length: 16 }, (_, n) => n + 1));
  expect(chainFaults(all)).toEqual({ forks: [], broken: [] });
});

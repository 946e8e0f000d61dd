import { createHash } from 'node:crypto';
import { contentHash, nextEntry, outlineSheet } from '@fettle/book';
import { calculatorNamed } from '@fettle/core';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesIn, freshId, JOB, ledgerOf, type TestBench, testBench } from '../testing/bench.ts';

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench();
});
afterEach(() => bench.close());

const outlined = outlineSheet({ layout: 'twin', cylinders: 2, mains: 2, title: 'Two' });
if (!outlined.ok) throw new Error('the outline is refused');
const SHEET = outlined.value;
const HASH = contentHash(SHEET);
const PICTURE = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);
const PICTURE_HASH = createHash('sha256').update(PICTURE).digest('hex');
const put = (path: string, body: string | Uint8Array<ArrayBuffer>, media: string) =>
  bench.ask(path, { method: 'PUT', body, headers: { 'content-type': media } });

it('keeps a sheet under its hash and no other, and only one that reads as a sheet', async () => {
  expect((await bench.json(`/api/sheets/${HASH}`)).status).toBe(404);
  const wrong = await bench.json(`/api/sheets/${'0'.repeat(64)}`, 'PUT', SHEET);
  expect([wrong.status, codesIn(wrong.body)]).toEqual([400, ['sheet/hash-differs']]);
  const none = await bench.json(`/api/sheets/${contentHash({ a: 1 })}`, 'PUT', { a: 1 });
  expect(none.status).toBe(400);
  expect((await bench.json('/api/sheets/XYZ', 'PUT', SHEET)).status).toBe(400);
  for (let times = 0; times < 2; times++)
    expect(await bench.json(`/api/sheets/${HASH}`, 'PUT', SHEET)).toEqual({
      status: 200,
      body: { hash: HASH },
    });
  expect((await bench.json(`/api/sheets/${HASH}`)).body).toEqual(SHEET);
});

it('keeps a picture under the hash of its bytes', async () => {
  expect((await put(`/api/photos/${PICTURE_HASH}`, PICTURE, 'image/jpeg')).status).toBe(200);
  const photo = await bench.ask(`/api/photos/${PICTURE_HASH}`);
  expect(photo.headers.get('content-type')).toBe('image/jpeg');
  expect(photo.headers.get('cache-control')).toContain('immutable');
  expect(new Uint8Array(await photo.arrayBuffer())).toEqual(PICTURE);
});

it('takes no picture that can hold a script, none under another hash, none that is empty or too large', async () => {
  const at = `/api/photos/${PICTURE_HASH}`;
  expect((await put(at, '<svg/>', 'image/svg+xml')).status).toBe(415);
  expect((await put(at, '<p>', 'text/html')).status).toBe(415);
  expect((await put(at, 'other', 'image/jpeg')).status).toBe(400);
  expect((await put(at, new Uint8Array(), 'image/jpeg')).status).not.toBe(200);
  expect((await put(at, new Uint8Array(20 * 2 ** 20 + 1), 'image/jpeg')).status).toBe(413);
  expect((await bench.ask(at)).status).toBe(404);
});

it('hands over, and does not show, what came by an archive under another media type', async () => {
  const bytes = new TextEncoder().encode('<script>alert(1)</script>');
  const hash = createHash('sha256').update(bytes).digest('hex');
  await bench.directory.store.append({ photos: [{ hash, media: 'text/html', bytes }] });
  const photo = await bench.ask(`/api/photos/${hash}`);
  expect(photo.headers.get('content-type')).toBe('application/octet-stream');
  expect(photo.headers.get('content-disposition')).toContain('attachment');
  expect(photo.headers.get('x-content-type-options')).toBe('nosniff');
});

async function jobWithSheet(): Promise<void> {
  const entries = ledgerOf(['a']);
  const pen = { job: JOB, device: 'tablet', who: 'Sam', at: '2026-03-01T10:00:00Z', id: freshId() };
  entries.push(nextEntry(entries, pen, 'spec-adopted', { sheet: HASH, title: SHEET.title }));
  await bench.directory.store.append({ entries, sheets: [{ hash: HASH, json: SHEET }] });
}

it('lets a job out as an archive and in again at another bench, the same and once', async () => {
  await jobWithSheet();
  const archive = await bench.ask(`/api/jobs/${JOB}/archive`);
  expect(archive.headers.get('content-type')).toBe('application/zip');
  const bytes = await archive.arrayBuffer();
  const other = await testBench();
  try {
    const sent = () =>
      other.ask('/api/archive', {
        method: 'POST',
        body: bytes,
        headers: { 'content-type': 'application/zip' },
      });
    expect(await (await sent()).json()).toEqual({ job: JOB, added: 3, known: 0 });
    expect(await (await sent()).json()).toEqual({ job: JOB, added: 0, known: 3 });
    const at = `/api/jobs/${JOB}/entries`;
    expect((await other.json(at)).body).toEqual((await bench.json(at)).body);
    expect((await other.json(`/api/sheets/${HASH}`)).body).toEqual(SHEET);
  } finally {
    await other.close();
  }
});

it('refuses an archive that is none, and one that is not called so', async () => {
  const sent = (body: string, media: string) =>
    bench.ask('/api/archive', { method: 'POST', body, headers: { 'content-type': media } });
  expect((await sent('no archive', 'application/zip')).status).toBe(400);
  expect((await sent('no archive', 'text/plain')).status).toBe(415);
  expect((await bench.json('/api/jobs')).body).toEqual([]);
});

it('prints on the paper asked for, and knows no other', async () => {
  await jobWithSheet();
  const printed = async (path: string) => {
    const response = await bench.ask(`/api/jobs/${JOB}/${path}`);
    return [response.status, response.headers.get('content-type'), await response.text()];
  };
  expect(await printed('build-book.pdf')).toEqual([200, 'application/pdf', `book ${JOB} a4`]);
  expect(await printed('wall-sheet.pdf?paper=letter')).toEqual([
    200,
    'application/pdf',
    'wall Two letter 2026-03-01T10:00:00.000Z',
  ]);
  expect((await printed('build-book.pdf?paper=a3'))[0]).toBe(400);
});

it('prints tags of the size asked for from the label asked for, and refuses a label no sheet has', async () => {
  await jobWithSheet();
  const asked = async (query: string) => {
    const response = await bench.ask(`/api/jobs/${JOB}/tags.pdf${query}`);
    return [response.status, await response.text()] as const;
  };
  // At the desk alone no other device finds the page, so the codes hold no address.
  expect(await asked('')).toEqual([200, `tags ${JOB} a4 65x40 1 undefined all`]);
  expect(await asked('?size=50x30&from=36&paper=a4')).toEqual([200, `tags ${JOB} a4 50x30 36 undefined all`]);
  const [status, said] = await asked('?size=50x30&from=37');
  expect([status, codesIn(JSON.parse(said))]).toEqual([400, ['tags/no-such-label']]);
  expect((await asked('?component=nobody'))[0]).toBe(404);
  expect((await asked('?size=40x40'))[0]).toBe(400);
});

it('computes any single calculation, bare numbers as SI, and says what is wrong with its input', async () => {
  const list = (await bench.json('/api/calculators')).body as { name: string }[];
  expect(list.length).toBeGreaterThan(10);
  for (const { name } of list) {
    const known = calculatorNamed(name);
    if (!known.ok) throw new Error(name);
    const schema = await bench.json(`/api/calculators/${name}`);
    expect([name, schema.status]).toEqual([name, 200]);
    const answer = await bench.json(`/api/calculators/${name}`, 'POST', known.value.example);
    expect([name, answer.status]).toEqual([name, 200]);
  }
  // By hand: π/4 · (0.1 m)² · 0.1 m, the bore a bare number and so in metres.
  const swept = await bench.json('/api/calculators/cylinder', 'POST', {
    bore: 0.1,
    stroke: '100 mm',
    cylinders: 1,
  });
  const { results } = swept.body as { results: Record<string, { value: number; unit: string }> };
  expect(results.swept_volume!.unit).toBe('m3');
  expect(results.swept_volume!.value).toBeCloseTo((Math.PI / 4) * 1e-3, 12);
  for (const wrong of [null, 7, [], { nonsense: 1 }]) {
    const { status, body } = await bench.json(`/api/calculators/${list[0]!.name}`, 'POST', wrong);
    expect(status).toBe(400);
    expect(codesIn(body)[0]).toMatch(/^input\//);
  }
  expect((await bench.json('/api/calculators/perpetual-motion')).status).toBe(404);
  expect((await bench.json('/api/calculators/__proto__', 'POST', {})).status).toBe(404);
});

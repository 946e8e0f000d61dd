import { contentHash, outlineSheet } from '@fettle/book';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesIn, JOB, ledgerOf, OTHER_JOB, type TestBench, testBench } from '../testing/bench.ts';

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench();
});
afterEach(() => bench.close());
const at = (job: string): string => `/api/jobs/${job}/entries`;

it('takes entries, says which are new, and gives them back as they were', async () => {
  const ledger = ledgerOf(['a', 'b']);
  const ids = ledger.map(({ id }) => id);
  const first = await bench.json(at(JOB), 'POST', ledger);
  expect(first).toEqual({ status: 200, body: { added: ids, known: [], reused: [], last: 3 } });
  const again = await bench.json(at(JOB), 'POST', ledger);
  expect(again).toEqual({ status: 200, body: { added: [], known: ids, reused: [], last: 3 } });
  expect((await bench.json(at(JOB))).body).toEqual({ entries: ledger, last: 3 });
  expect((await bench.json(`${at(JOB)}?after=2`)).body).toEqual({ entries: [ledger[2]], last: 3 });
  expect((await bench.json(`${at(JOB)}?after=3`)).body).toEqual({ entries: [], last: 3 });
  expect((await bench.json('/api/jobs')).body).toEqual([
    { id: JOB, title: 'The blue one', entries: 3, opened: '2026-03-01T10:00:00Z', last: 3 },
  ]);
});

it('keeps another entry under a known id beside the first, with the rest of its parcel', async () => {
  const [opened, a, b] = ledgerOf(['a', 'b']);
  await bench.json(at(JOB), 'POST', [opened, a]);
  const forged = { ...a!, body: { text: 'A' } };
  const kept = await bench.json(at(JOB), 'POST', [b, forged]);
  expect(kept).toEqual({
    status: 200,
    body: { added: [b!.id, forged.id], known: [], reused: [forged.id], last: 4 },
  });
  expect((await bench.json(`${at(JOB)}?after=2`)).body).toEqual({ entries: [b, forged], last: 4 });
});

it('refuses an id that another job has', async () => {
  const ledger = ledgerOf(['a']);
  await bench.json(at(JOB), 'POST', ledger);
  const stolen = ledger.map((entry) => ({ ...entry, job: OTHER_JOB }));
  expect((await bench.json(at(OTHER_JOB), 'POST', stolen)).status).toBe(409);
  expect(((await bench.json('/api/jobs')).body as unknown[]).length).toBe(1);
});

it.each([
  ['an object', {}],
  ['a number', 7],
  ['text', 'entries'],
  ['nothing', null],
  ['entries that are numbers', [1, 2]],
  ['entries that are nothing', [null]],
  ['an entry without its tick', [{ ...ledgerOf([])[0], tick: undefined }]],
  ['a body of a known kind with a key too many', [{ ...ledgerOf([])[0], body: { title: 'a', b: 1 } }]],
  ['an id that is none', [{ ...ledgerOf([])[0], id: '../../etc' }]],
])('refuses %s with what is wrong', async (_, value) => {
  const { status, body } = await bench.json(at(JOB), 'POST', value);
  // An entry that opens nothing, sent to a job that is not here, is told so first.
  expect([400, 404]).toContain(status);
  expect(codesIn(body).length).toBeGreaterThan(0);
  expect(body).toMatchObject({ type: 'about:blank', status });
  expect((await bench.json('/api/jobs')).body).toEqual([]);
  expect(bench.faults).toEqual([]);
});

it('refuses what is no JSON, no JSON by its name, and what is cut short', async () => {
  const sent = (body: string, media?: string) =>
    bench.ask(at(JOB), { method: 'POST', body, headers: media ? { 'content-type': media } : {} });
  expect((await sent('[{"id": ', 'application/json')).status).toBe(400);
  expect((await sent('', 'application/json')).status).toBe(400);
  expect((await sent('[]', 'text/plain')).status).toBe(415);
  expect((await sent('[]')).status).toBe(415);
  expect((await sent('[]', 'application/x-www-form-urlencoded')).status).toBe(415);
});

it('refuses a body past its limit, announced or not', async () => {
  const huge = `["${'x'.repeat(17 * 2 ** 20)}"]`;
  const json = { 'content-type': 'application/json' };
  const announced = await bench.ask(at(JOB), {
    method: 'POST',
    headers: { ...json, 'content-length': String(huge.length) },
    body: huge,
  });
  expect(announced.status).toBe(413);
  let sent = 0;
  const stream = new ReadableStream<Uint8Array>({
    pull: (to) => {
      sent += 2 ** 20;
      to.enqueue(new Uint8Array(2 ** 20).fill(32));
    },
  });
  const streamed = await bench.ask(at(JOB), {
    method: 'POST',
    headers: json,
    body: stream,
    duplex: 'half',
  } as RequestInit);
  expect(streamed.status).toBe(413);
  // It stopped reading soon after the limit.
  expect(sent).toBeLessThan(20 * 2 ** 20);
});

it('does not know a job that nobody opened, to read or to write', async () => {
  for (const path of [
    at(JOB),
    `/api/jobs/${JOB}/archive`,
    `/api/jobs/${JOB}/build-book.pdf`,
    `/api/jobs/${JOB}/wall-sheet.pdf`,
    `/api/jobs/${JOB}/sheets/${'0'.repeat(64)}`,
  ])
    expect([path, (await bench.json(path)).status]).toEqual([path, 404]);
  const [, note] = ledgerOf(['a']);
  const refused = await bench.json(at(JOB), 'POST', [note]);
  expect(refused.status).toBe(404);
  expect(codesIn(refused.body)).toEqual(['job/unknown']);
});

it('refuses an address that is no job id, and an "after" that is no number', async () => {
  expect((await bench.json(at('..%2f..'))).status).toBe(400);
  expect((await bench.json(at('linnet'))).status).toBe(400);
  await bench.json(at(JOB), 'POST', ledgerOf([]));
  for (const after of ['-1', 'x', '1e3', '1.5', '9'.repeat(40), ''])
    expect([after, (await bench.json(`${at(JOB)}?after=${after}`)).status]).toEqual([after, 400]);
});

it('refuses entries sent to another job than their own', async () => {
  const refused = await bench.json(at(OTHER_JOB), 'POST', ledgerOf(['a']));
  expect(refused.status).toBe(400);
  expect(codesIn(refused.body)).toEqual(['entry/other-job', 'entry/other-job']);
});

it('keeps each entry once when many send the same and their own at once', async () => {
  const shared = ledgerOf(['shared']);
  await bench.json(at(JOB), 'POST', [shared[0]]);
  const own = Array.from({ length: 8 }, (_, i) => ledgerOf(['x', 'y'], { device: `device ${i}` }).slice(1));
  const answers = await Promise.all(
    own.flatMap((entries) => [
      bench.json(at(JOB), 'POST', [...shared, ...entries]),
      bench.json(at(JOB), 'POST', [...entries, ...shared]),
    ]),
  );
  expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 200));
  const added = answers.flatMap(({ body }) => (body as { added: string[] }).added);
  expect(new Set(added).size).toBe(added.length);
  const { entries } = (await bench.json(at(JOB))).body as { entries: { id: string }[] };
  const wanted = [...shared, ...own.flat()].map(({ id }) => id).sort();
  expect(entries.map(({ id }) => id).sort()).toEqual(wanted);
});

it('keeps entries with the sheet they name, or neither', async () => {
  const outlined = outlineSheet({ layout: 'inline', cylinders: 4, mains: 3, title: 'Four' });
  if (!outlined.ok) throw new Error('the outline is refused');
  const hash = contentHash(outlined.value);
  const entries = ledgerOf(['a']);
  const wrong = { entries, sheets: [{ hash: '0'.repeat(64), json: outlined.value }] };
  expect((await bench.json('/api/parcel', 'POST', wrong)).status).toBe(400);
  expect((await bench.json('/api/jobs')).body).toEqual([]);
  const right = { entries, sheets: [{ hash, json: outlined.value }] };
  expect((await bench.json('/api/parcel', 'POST', right)).status).toBe(200);
  expect((await bench.json(`/api/sheets/${hash}`)).body).toEqual(outlined.value);
  expect((await bench.json(`/api/jobs/${JOB}/sheets/${hash}`)).body).toEqual(outlined.value);
});

import { afterEach, beforeEach, expect, it } from 'vitest';
import { codesIn, JOB, ledgerOf, type TestBench, testBench } from '../testing/bench.ts';

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench();
});
afterEach(() => bench.close());

const OUTLINE = { layout: 'inline', cylinders: 4, mains: 3, title: 'The blue one' };

it('opens a job from an outline, with its sheet', async () => {
  const { status, body } = await bench.json('/api/jobs', 'POST', {
    who: 'Sam',
    outline: OUTLINE,
    owner: 'Kim',
    spending_cap: 100,
  });
  expect(status).toBe(201);
  const job = body as { id: string; title: string; sheet: string };
  expect(job.title).toBe('The blue one');
  const { entries } = (await bench.json(`/api/jobs/${job.id}/entries`)).body as {
    entries: { kind: string; who: string; device: string; body: object }[];
  };
  expect(entries.map(({ kind }) => kind)).toEqual(['job-opened', 'spec-adopted']);
  expect(entries[0]).toMatchObject({
    who: 'Sam',
    device: bench.directory.device,
    body: { title: 'The blue one', owner: 'Kim', spending_cap: 100 },
  });
  const sheet = await bench.json(`/api/sheets/${job.sheet}`);
  expect(sheet.body).toMatchObject({ format: 'fettle-spec-sheet', title: 'The blue one' });
});

it('opens a job from the text of a spreadsheet, and from a spec sheet', async () => {
  const csv = 'name,unit,new lower,new upper\nPin bore,mm,20.00,20.02\n';
  const fromCsv = await bench.json('/api/jobs', 'POST', { who: 'Sam', csv, title: 'From a spreadsheet' });
  expect(fromCsv.status).toBe(201);
  const { sheet } = fromCsv.body as { sheet: string };
  const json = (await bench.json(`/api/sheets/${sheet}`)).body;
  const fromSheet = await bench.json('/api/jobs', 'POST', { sheet: json, title: 'The same again' });
  expect(fromSheet.status).toBe(201);
  expect((fromSheet.body as { sheet: string }).sheet).toBe(sheet);
  expect(((await bench.json('/api/jobs')).body as { title: string }[]).map(({ title }) => title)).toEqual([
    'From a spreadsheet',
    'The same again',
  ]);
});

it('opens a job once when its opening is sent twice, also at once', async () => {
  const asked = { id: JOB, who: 'Sam', outline: OUTLINE };
  const answers = await Promise.all([1, 2, 3].map(() => bench.json('/api/jobs', 'POST', asked)));
  expect(answers.map(({ status }) => status).filter((status) => status > 201)).toEqual([]);
  expect((await bench.json('/api/jobs', 'POST', asked)).status).toBe(200);
  const { entries } = (await bench.json(`/api/jobs/${JOB}/entries`)).body as { entries: { kind: string }[] };
  expect(entries.filter(({ kind }) => kind === 'job-opened')).toHaveLength(1);
  const other = await bench.json('/api/jobs', 'POST', { ...asked, title: 'Another' });
  expect(other.status).toBe(409);
  expect(codesIn(other.body)).toEqual(['job/id-reused']);
});

it.each([
  ['nothing to open it from', { who: 'Sam' }, 'job/nothing-to-open-from'],
  ['two things to open it from', { csv: 'name\n', outline: OUTLINE }, 'job/nothing-to-open-from'],
  ['a key it does not know', { outline: OUTLINE, colour: 'blue' }, 'request/malformed'],
  ['a sheet that is a number', { sheet: 7 }, 'sheet/malformed'],
  ['an outline of too many cylinders', { outline: { ...OUTLINE, cylinders: 400 } }, 'outline/cylinders'],
  ['an outline of half a cylinder', { outline: { ...OUTLINE, cylinders: 0.5 } }, 'request/malformed'],
  ['a spreadsheet without a heading', { csv: '1,2,3\n4,5,6\n' }, 'csv/heading'],
  ['a list', [], 'request/malformed'],
  ['an id that is none', { id: 'x', outline: OUTLINE }, 'request/malformed'],
])('refuses %s', async (_, value, code) => {
  const { status, body } = await bench.json('/api/jobs', 'POST', value);
  expect([status, codesIn(body)[0]]).toEqual([400, code]);
  expect((await bench.json('/api/jobs')).body).toEqual([]);
});

it('shows a job whose opening has not come yet', async () => {
  const [, note] = ledgerOf(['a']);
  await bench.directory.store.append({ entries: [note] });
  expect((await bench.json('/api/jobs')).body).toEqual([
    { id: JOB, title: 'untitled', entries: 1, opened: null, last: 1 },
  ]);
});

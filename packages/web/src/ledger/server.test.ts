import { expect, it } from 'vitest';
import { serverAt } from './server.ts';

const JOB = '01965c1e-4000-7000-8000-000000000001';

const saying = (status: number, body: unknown) =>
  serverAt(async () => new Response(JSON.stringify(body), { status }));

it('tells a refusal, which is final, from what may be tried again', async () => {
  const issue = { code: 'entry/id-reused', at: '', got: 'a', wanted: 'b', message: 'That id is taken.' };
  expect(await saying(409, { title: 'Conflict', issues: [issue] }).send(JOB, [])).toEqual({
    state: 'refused',
    issues: [issue],
  });
  for (const status of [408, 429, 500, 503, 507])
    expect(await saying(status, { title: 'Not now', detail: 'The disk is full.' }).send(JOB, [])).toEqual({
      state: 'unable',
      words: 'The disk is full.',
    });
});

it('knows that this device is not paired', async () => {
  expect(await saying(403, { title: 'Forbidden' }).jobs()).toEqual({ state: 'stranger' });
});

it('takes a server that does not answer, or answers with no JSON, for what it is', async () => {
  const gone = serverAt(() => Promise.reject(new TypeError('Failed to fetch')));
  expect(await gone.jobs()).toEqual({ state: 'offline' });
  const odd = serverAt(async () => new Response('<html>', { status: 502 }));
  expect(await odd.send(JOB, [])).toEqual({ state: 'unable', words: 'The server answered 502.' });
});

it('asks after the last entry it has, and sends entries as a bare array', async () => {
  const asked: { path: string; body: unknown }[] = [];
  const server = serverAt(async (path, init) => {
    asked.push({ path, body: init?.body });
    return new Response('{"entries":[],"last":7}');
  });
  await server.entriesAfter(JOB, 7);
  await server.send(JOB, []);
  expect(asked).toEqual([
    { path: `/api/jobs/${JOB}/entries?after=7`, body: undefined },
    { path: `/api/jobs/${JOB}/entries`, body: '[]' },
  ]);
});

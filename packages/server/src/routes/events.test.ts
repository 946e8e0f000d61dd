import { afterEach, beforeEach, expect, it } from 'vitest';
import { JOB, ledgerOf, OTHER_JOB, type TestBench, testBench } from '../testing/bench.ts';

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench({ beats: { heartbeat: 60, look: 20 } });
});
afterEach(() => bench.close());

interface Told {
  readonly job: string;
  readonly last: number;
  readonly id: string;
}

/** An open stream, read on demand. */
async function listening(headers: Record<string, string> = {}) {
  const leaving = new AbortController();
  const response = await bench.ask('/api/events', { headers, signal: leaving.signal });
  expect(response.status).toBe(200);
  expect(response.headers.get('content-type')).toContain('text/event-stream');
  const reader = response.body!.getReader();
  let text = '';
  let ended = false;
  void (async () => {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      text += new TextDecoder().decode(value);
    }
    ended = true;
  })().catch(() => {
    ended = true;
  });
  const told = (): Told[] =>
    text
      .split('\n\n')
      .filter((block) => block.includes('event: entries'))
      .map((block) => ({
        ...(JSON.parse(/^data: (.*)$/m.exec(block)![1]!) as { job: string; last: number }),
        id: /^id: (.*)$/m.exec(block)![1]!,
      }));
  return { told, text: () => text, hasEnded: () => ended, leave: () => reader.cancel() };
}

const until = async (holds: () => boolean): Promise<void> => {
  for (let tries = 0; !holds(); tries++) {
    if (tries > 200) throw new Error('it did not come in two seconds');
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
};
const send = (job: string, entries: unknown) => bench.json(`/api/jobs/${job}/entries`, 'POST', entries);

it('tells at once of every job there is, then of each as it moves', async () => {
  const ledger = ledgerOf(['a', 'b']);
  await send(JOB, ledger.slice(0, 2));
  const stream = await listening();
  await until(() => stream.told().length === 1);
  expect(stream.told()).toEqual([{ job: JOB, last: 2, id: '2' }]);
  await send(OTHER_JOB, ledgerOf([], { job: OTHER_JOB }));
  await send(JOB, ledger);
  await until(() => stream.told().length === 3);
  expect(stream.told().slice(1)).toEqual([
    { job: OTHER_JOB, last: 3, id: '3' },
    { job: JOB, last: 4, id: '4' },
  ]);
  await stream.leave();
});

it('goes on after the last one heard, and tells nothing twice', async () => {
  await send(JOB, ledgerOf(['a']));
  await send(OTHER_JOB, ledgerOf([], { job: OTHER_JOB }));
  const since = await listening({ 'last-event-id': '2' });
  await until(() => since.told().length === 1);
  expect(since.told()).toEqual([{ job: OTHER_JOB, last: 3, id: '3' }]);
  const upToDate = await listening({ 'last-event-id': '3' });
  await send(JOB, ledgerOf(['b']));
  await until(() => upToDate.told().length === 1);
  expect(upToDate.told()).toEqual([{ job: JOB, last: 5, id: '5' }]);
  const odd = await listening({ 'last-event-id': 'x; drop' });
  await until(() => odd.told().length === 2);
  await Promise.all([since.leave(), upToDate.leave(), odd.leave()]);
});

it('tells in rising order while many write at once, and of everything in the end', async () => {
  const stream = await listening();
  const jobs = Array.from({ length: 6 }, (_, i) => `01920000-0000-7000-8000-00000000010${i}`);
  await Promise.all(
    jobs.map(async (job) => {
      const ledger = ledgerOf(['a', 'b', 'c', 'd'], { job });
      for (let n = 1; n <= ledger.length; n++) await send(job, ledger.slice(0, n));
    }),
  );
  const listed = (await bench.json('/api/jobs')).body as { id: string; last: number }[];
  await until(() =>
    listed.every(({ id, last }) => stream.told().some((of) => of.job === id && of.last === last)),
  );
  const numbers = stream.told().map(({ id }) => Number(id));
  expect(numbers).toEqual([...new Set(numbers)].sort((a, b) => a - b));
  await stream.leave();
});

it('tells of what another process wrote', async () => {
  const stream = await listening();
  await bench.directory.store.append({ entries: ledgerOf(['a']) });
  await until(() => stream.told().length === 1);
  expect(stream.told()).toEqual([{ job: JOB, last: 2, id: '2' }]);
  await stream.leave();
});

it('gives a sign of life while nothing happens', async () => {
  const stream = await listening();
  await until(() => stream.text().split(': still here').length > 3);
  expect(stream.told()).toEqual([]);
  await stream.leave();
});

it('ends the stream of a device that is revoked', async () => {
  const open = await testBench({ lan: true, beats: { heartbeat: 60, look: 20 } });
  await bench.close();
  bench = open;
  const { code } = (await bench.json('/api/pairing', 'POST')).body as { code: string };
  const paired = await bench.ask('/api/pair', {
    method: 'POST',
    body: JSON.stringify({ code, name: 'tablet' }),
    headers: { 'content-type': 'application/json' },
  });
  const { device } = (await paired.json()) as { device: string };
  const cookie = paired.headers.get('set-cookie')!.split(';')[0]!;
  const phone = { remote: '192.168.1.20', local: '192.168.1.2' };
  bench.peer = phone;
  const stream = await listening({ cookie });
  bench.peer = { remote: '127.0.0.1', local: '127.0.0.1' };
  await bench.json(`/api/devices/${device}`, 'DELETE');
  bench.peer = phone;
  await until(stream.hasEnded);
  expect(stream.hasEnded()).toBe(true);
});

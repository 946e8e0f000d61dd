import { existsSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CommandDesk } from '../testing/desk.ts';

const desk = new CommandDesk();
beforeAll(async () => {
  await desk.good('new', '--demo', 'jackdaw');
});
afterAll(() => desk.clear());

interface Found {
  readonly part: string;
  readonly short_id: string;
  readonly belongs: { readonly by: string; readonly position: string };
  readonly judgements: readonly { readonly characteristic: string; readonly status: string }[];
}

it('prints tags for the parts asked for by id, and reads them back by what stands on them', async () => {
  const { short_id, belongs, judgements } = await desk.json<Found>('find', 'jackdaw', 'scavenge-pump');
  expect(belongs).toMatchObject({ by: 'fitted', position: 'scavenge-pump' });
  expect(judgements.some(({ characteristic }) => characteristic === 'pump.scavenge-volume')).toBe(true);
  const scanned = 'http://192.0.2.7:4173/#/01965c1e-4000-7000-8000-000000000500/part/scavenge-pump';
  for (const text of [short_id, short_id.toLowerCase(), scanned]) {
    expect((await desk.json<Found>('find', 'jackdaw', text)).part).toBe('scavenge-pump');
    // A scanner types into whatever is open, also where a reading would be said.
    expect((await desk.json<Found>('say', 'jackdaw', text)).part).toBe('scavenge-pump');
  }
  const file = desk.file('tags.pdf');
  const { tags } = await desk.json<{ tags: number }>(
    ...['tags', 'jackdaw', short_id, 'crank', '--to', file, '--size', '50x30', '--from', '36'],
  );
  expect(tags).toBe(2);
  expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
});

it('refuses a label, a size, a part and an address that are none, all at once, and writes nothing', async () => {
  const file = desk.file('none.pdf');
  const wrong = ['--size', '40x40', '--page', 'somewhere', '--paper', 'a5'];
  expect(await desk.refused('tags', 'jackdaw', 'nobody', '--to', file, ...wrong)).toEqual([
    'paper/unknown',
    'tags/unknown-size',
    'tag/no-such-part',
    'tags/no-address',
  ]);
  expect(await desk.refused('tags', 'jackdaw', '--to', file, '--size', '50x30', '--from', '37')).toEqual([
    'tags/no-such-label',
  ]);
  expect(await desk.refused('find', 'jackdaw', 'http://192.0.2.7/#/other-job/part/crank')).toEqual([
    'tag/other-job',
  ]);
  expect(existsSync(file)).toBe(false);
});

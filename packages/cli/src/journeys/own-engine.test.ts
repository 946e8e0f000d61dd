import { writeFileSync } from 'node:fs';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { type CheckJson, CommandDesk } from '../testing/desk.ts';

let desk = new CommandDesk();
beforeEach(() => {
  desk.clear();
  desk = new CommandDesk();
});
afterAll(() => desk.clear());

const status = async (name: string): Promise<string | undefined> =>
  (await desk.json<CheckJson>('check', 'blue')).judgements.find((one) => one.characteristic === name)?.status;

describe('readings that have to be asked about', () => {
  const limits = (name: string, more = {}) => ({
    id: name,
    name,
    kind: 'length',
    unit: 'in',
    source: { document: 'own', trust: 'remembered' },
    ...more,
  });
  const sheet = (characteristics: object[], more = {}) => {
    writeFileSync(
      desk.file('sheet.json'),
      JSON.stringify({
        format: 'fettle-spec-sheet',
        version: 1,
        title: 'The blue one',
        documents: { own: { title: 'Own notes' } },
        characteristics,
        ...more,
      }),
    );
    return desk.good('new', '--from', desk.file('sheet.json'));
  };
  const leaves = () =>
    desk.good(
      'tools',
      'blue',
      'add',
      'leaves',
      'Leaves',
      '--type',
      'feeler leaves',
      '--leaves',
      '2thou 3thou 4thou 5thou 6thou 7thou',
    );

  it('a gap is closed in leaf by leaf, with the next leaf named each time', async () => {
    await sheet([limits('gap', { limits: { wear: { upper: '0.005 in' } } })]);
    await leaves();
    const first = await desk.json<{
      judgements: { status: string; next?: { move: string; leaf: string } }[];
    }>('read', 'blue', 'gap', '--goes', '2thou', '--stops', '7thou', '--with', 'leaves');
    expect(first.judgements[0]).toMatchObject({
      status: 'cannot-tell',
      next: { move: 'try-leaf', leaf: '5thou' },
    });
    const second = await desk.json<typeof first>(
      'read',
      'blue',
      'gap',
      '--stops',
      '5thou',
      '--with',
      'leaves',
    );
    expect(second.judgements[0]?.status).toBe('in');
  });

  it('a clearance that can be read in two ways is asked which, and the way decides', async () => {
    const radial = limits('radial', {
      measurand: 'per-side',
      ask_measurand: true,
      read_as: { total: { how: 'gear held over to one side', factor: 0.5 } },
      limits: { wear: { upper: '0.005 in' } },
    });
    await sheet([radial]);
    await leaves();
    const read = ['read', 'blue', 'radial', '--goes', '2thou', '--stops', '6thou', '--with', 'leaves'];
    expect(await desk.refused(...read)).toEqual(['reading/measurand-missing']);
    const asked = await desk.fettle(read);
    expect(asked.err).toContain('gear held over to one side');
    await desk.good(...read, '--measurand', 'total');
    expect(await status('radial')).toBe('in');
  });

  it('per side, the same leaves cannot tell', async () => {
    await sheet([
      limits('radial', {
        measurand: 'per-side',
        ask_measurand: true,
        read_as: { total: { how: 'gear held over', factor: 0.5 } },
        limits: { wear: { upper: '0.005 in' } },
      }),
    ]);
    await leaves();
    await desk.good(
      'read',
      'blue',
      'radial',
      '--goes',
      '2thou',
      '--stops',
      '6thou',
      '--with',
      'leaves',
      '--measurand',
      'per-side',
    );
    expect(await status('radial')).toBe('cannot-tell');
  });

  it('an implausible reading is kept when confirmed, with the question and what was first said', async () => {
    const journal = limits('journal', {
      limits: {
        new: { lower: '2.4990 in', upper: '2.5000 in' },
        wear: { lower: '2.4980 in', upper: '2.5000 in' },
      },
    });
    await sheet([journal]);
    await desk.good('tools', 'blue', 'add', 'mic', 'Micrometer', '--type', 'micrometer');
    expect(await desk.refused('read', 'blue', 'journal', '2.4585in', '--with', 'mic')).toEqual([
      'reading/implausible',
    ]);
    await desk.good('read', 'blue', 'journal', '2.4585in', '--with', 'mic', '--confirm');
    await desk.good('read', 'blue', 'journal', '2.4985in', '--with', 'mic', '--first-said', '2.4585in');
    const log = await desk.json<{ body: { value: string; asked: { code: string; first_said: string } } }[]>(
      'log',
      'blue',
      '--kind',
      'reading',
    );
    expect(log.map(({ body }) => [body.value, body.asked.code, body.asked.first_said])).toEqual([
      ['2.4585in', 'reading/implausible', '2.4585in'],
      ['2.4985in', 'reading/implausible', '2.4585in'],
    ]);
  });

  it('a reading without a unit, with a wrong one, in a wrong place or by an unknown instrument is refused whole', async () => {
    await sheet([limits('bore', { places: ['cylinder'] })], { axes: { cylinder: ['1', '2'] } });
    await desk.good('tools', 'blue', 'add', 'mic', 'Micrometer', '--type', 'micrometer');
    expect(await desk.refused('read', 'blue', 'bore', '3.5', '3.5in', '--with', 'mic')).toEqual([
      'unit/missing',
    ]);
    expect(await desk.refused('read', 'blue', 'bore', '3.5psi', '--at', '1', '--with', 'mic')).toEqual([
      'unit/wrong-kind',
    ]);
    expect(await desk.refused('read', 'blue', 'bore', '3,5in', '--at', '1', '--with', 'mic')).toEqual([
      'number/decimal-comma',
    ]);
    expect(await desk.refused('read', 'blue', 'bore', '3.5in', '--at', '9', '--with', 'mic')).toEqual([
      'place/unknown',
    ]);
    expect(await desk.refused('read', 'blue', 'bore', '3.5in', '--with', 'mic')).toEqual([
      'reading/places-do-not-match',
    ]);
    expect(await desk.refused('read', 'blue', 'bore', '3.5in', '--at', '1', '--with', 'rule')).toEqual([
      'instrument/unknown',
    ]);
    expect(await desk.refused('read', 'blue', 'bored', '3.5in', '--with', 'mic')).toEqual([
      'characteristic/unknown',
    ]);
    expect(await desk.json('log', 'blue', '--kind', 'reading')).toEqual([]);
  });

  it('a limit is amended with page, trust and reason, and one that does not fit is refused', async () => {
    await sheet([limits('gap', { limits: { wear: { upper: '0.005 in' } } })]);
    await desk.good('tools', 'blue', 'add', 'mic', 'Micrometer', '--type', 'micrometer');
    await desk.good('read', 'blue', 'gap', '0.006in', '--with', 'mic');
    expect(await status('gap')).toBe('out');
    const amend = [
      'amend',
      'blue',
      'gap',
      '--trust',
      'printed',
      '--why',
      'later edition',
      '--document',
      'Bulletin 7',
      '--page',
      '3',
    ];
    expect((await desk.fettle([...amend, '--wear-upper', '5 psi'])).status).toBe(2);
    await desk.good(...amend, '--wear-upper', '0.007 in');
    expect(await status('gap')).toBe('in');
    expect((await desk.good('why', 'blue', 'gap')).out).toContain('Bulletin 7, page 3, printed');
  });
});

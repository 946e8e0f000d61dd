import { CATALOGUE } from '@fettle/core';
import { describe, expect, it } from 'vitest';
import { assessment } from '../assess/assessment.ts';
import { asFittedNow } from '../assess/selection.ts';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { partsAstray } from './astray.ts';
import { jointMoments } from './joints.ts';

const SHEET = {
  axes: { main: ['1', '2'] },
  positions: [
    { id: 'block', name: 'Block' },
    { id: 'main-cap-{main}', name: 'Main cap {main}', places: ['main'] },
  ],
  characteristics: [
    inches('cap.height', { position: 'main-cap-{main}', places: ['main'] }),
    inches('block.deck', { position: 'block' }),
  ],
  fasteners: [
    {
      id: 'plug',
      name: 'Core plug',
      torque: { lower: '10 N.m' },
      source: { document: 'made', trust: 'assumed' },
    },
  ],
  openings: [{ id: 'gallery', name: 'Gallery plugs' }],
  covers: [
    {
      id: 'crank-in',
      name: 'Crank in',
      order: 1,
      reopen_hours: 6,
      hides: { characteristics: ['cap.*', 'block.*'], fasteners: [], openings: ['gallery'] },
    },
    { id: 'pan', name: 'Pan', order: 2, reopen_hours: 5, hides: { characteristics: [] } },
  ],
};

const bench = () => new Bench(SHEET);
const messages = (one: Bench, cover = 'crank-in', now?: number) => {
  const book = one.book();
  const gate = assessment(book, asFittedNow(book), CATALOGUE, now).gates.find((g) => g.cover.id === cover)!;
  return gate.reasons.filter(({ code }) => !code.startsWith('reading/')).map(({ message }) => message);
};

describe('openings', () => {
  it('eleven plugs out and ten back in hold the cover that hides them, and no other', () => {
    const one = bench();
    one.desk.write('opening-cleared', { opening: 'gallery', by: 'plug', count: 11 });
    expect(messages(one)).toEqual(['Gallery plugs: 11 plugs out, 0 back in: 11 are missing']);
    one.desk.write('opening-blocked', { opening: 'gallery', by: 'plug', count: 10 });
    expect(messages(one)).toEqual(['Gallery plugs: 11 plugs out, 10 back in: 1 is missing']);
    expect(messages(one, 'pan')).toEqual([]);
    one.desk.write('opening-blocked', { opening: 'gallery', by: 'plug', count: 1 });
    expect(messages(one)).toEqual([]);
  });

  it('a rag left inside holds every cover when no cover names its opening', () => {
    const one = bench();
    one.desk.write('opening-blocked', { opening: 'rod-tunnels', by: 'rag', count: 3 });
    one.desk.write('opening-cleared', { opening: 'rod-tunnels', by: 'rag', count: 2 });
    const words = 'rod tunnels: 3 rags in, 2 out: 1 is still inside';
    expect(messages(one)).toEqual([words]);
    expect(messages(one, 'pan')).toEqual([words]);
  });

  it('a plug does not stand for a rag', () => {
    const one = bench();
    one.desk.write('opening-blocked', { opening: 'gallery', by: 'rag', count: 1 });
    one.desk.write('opening-cleared', { opening: 'gallery', by: 'plug', count: 1 });
    expect(messages(one)).toHaveLength(2);
  });
});

describe('marked parts', () => {
  it('two caps exchanged are both away from home, by name', () => {
    const one = bench();
    for (const [part, position] of [
      ['cap-1', 'main-cap-2'],
      ['cap-2', 'main-cap-1'],
    ] as const) {
      one.part(part, position);
      one.desk.write('part-marked', { part, home: `main-${part}` });
    }
    expect(messages(one)).toEqual([
      'cap-1 stands at Main cap 2, the place of cap-2; it belongs at Main cap 1',
      'cap-2 stands at Main cap 1, the place of cap-1; it belongs at Main cap 2',
    ]);
  });

  it('the way round has to be said and to be right; a partner has to be there', () => {
    const one = bench();
    one.part('cap-1', 'main-cap-1');
    one.desk.write('part-entered', {
      part: 'old-block',
      name: 'The block it was bored with',
      condition: 'used',
    });
    one.desk.write('part-marked', { part: 'cap-1', way: 'arrow to the front', partners: ['old-block'] });
    expect(messages(one)).toEqual([
      'cap-1: which way round it stands was not said; it must stand arrow to the front',
      'cap-1 is fitted without The block it was bored with, with which it was made or run in',
    ]);
    one.desk.write('part-fitted', { position: 'block', part: 'old-block' });
    one.desk.write('part-fitted', { position: 'main-cap-1', part: 'cap-1', way: 'arrow to the rear' });
    expect(messages(one)).toEqual(['cap-1 stands arrow to the rear; it must stand arrow to the front']);
    one.desk.write('part-fitted', { position: 'main-cap-1', part: 'cap-1', way: 'Arrow to the front' });
    expect(messages(one)).toEqual([]);
  });
});

describe('a partner beside its part', () => {
  const ENGINE = {
    ...SHEET,
    positions: [
      ...SHEET.positions,
      { id: 'main-saddle-{main}', name: 'Main saddle', places: ['main'] },
      { id: 'gear-{main}', name: 'Gear', places: ['main'] },
    ],
  };
  const paired = (more: object = {}) => {
    const one = new Bench(ENGINE);
    one.part('cap-1', 'main-cap-1');
    one.part('saddle', 'main-saddle-2');
    one.desk.write('part-marked', { part: 'cap-1', partners: ['saddle'], ...more });
    return one;
  };
  const whys = (one: Bench) => partsAstray(one.book()).map(({ part, why }) => ({ part, ...why }));

  it('is where the sheet says so: the cap of main 1 goes with the saddle of main 1', () => {
    const one = paired();
    expect(whys(one)).toEqual([{ part: 'cap-1', is: 'apart', partner: 'saddle', at: 'main-saddle-2' }]);
    expect(messages(one)).toEqual([
      'cap-1 stands at Main cap 1 without saddle beside it, which stands at Main saddle, main 2',
    ]);
    one.desk.write('part-fitted', { position: 'main-saddle-1', part: 'saddle' });
    expect(whys(one)).toEqual([]);
  });

  it('is the home of its own mark, whatever the sheet says', () => {
    const one = paired();
    one.desk.write('part-marked', { part: 'saddle', home: 'main-saddle-2' });
    expect(whys(one)).toEqual([]);
    one.desk.write('part-fitted', { position: 'main-saddle-1', part: 'saddle' });
    expect(whys(one)).toContainEqual({
      part: 'cap-1',
      is: 'apart',
      partner: 'saddle',
      at: 'main-saddle-1',
      wanted: 'main-saddle-2',
    });
  });

  it('is first of all the position that the mark names', () => {
    const one = paired({ beside: { saddle: 'main-saddle-2' } });
    one.desk.write('part-marked', { part: 'saddle', home: 'main-saddle-2' });
    expect(whys(one)).toEqual([]);
    one.desk.write('part-marked', { part: 'cap-1', partners: ['saddle'], beside: { saddle: 'block' } });
    expect(whys(one)).toMatchObject([{ is: 'apart', wanted: 'block' }]);
  });

  it('is anywhere for two of one kind, and for those without a common axis', () => {
    const one = new Bench(ENGINE);
    one.part('driving', 'gear-1');
    one.part('driven', 'gear-2');
    one.part('block', 'block');
    one.desk.write('part-marked', { part: 'driving', partners: ['driven', 'block'] });
    expect(whys(one)).toEqual([]);
    one.desk.write('part-fitted', { position: 'gear-2', part: null });
    expect(whys(one)).toEqual([{ part: 'driving', is: 'alone', partner: 'driven' }]);
  });
});

describe('what no cover is known to hide', () => {
  it('holds every cover: a part away from home, and a blasted one', () => {
    const one = new Bench({ ...SHEET, positions: [...SHEET.positions, { id: 'pump', name: 'Pump' }] });
    one.part('pump', 'pump');
    one.desk.write('part-reworked', { part: 'pump', what: 'blasted', condition: 'used', blasted: true });
    one.desk.write('part-marked', { part: 'pump', home: 'block' });
    expect(messages(one, 'pan')).toHaveLength(2);
    expect(messages(one)).toHaveLength(2);
  });
});

describe('a machined part', () => {
  it('is held until it is opened, washed, blown and seen through, and again after each rework', () => {
    const one = bench();
    one.part('block', 'block');
    expect(messages(one)).toEqual([]);
    const state = one.desk.write('part-reworked', {
      part: 'block',
      what: 'rebored',
      condition: 'machined',
      blasted: true,
    }).id;
    expect(messages(one)[0]).toContain(
      'block, rebored: not proven clean, opened, washed, blown, seen through still wanted; it was blasted',
    );
    const done = { part: 'block', state, opened: true, washed: true, blown: true };
    one.desk.write('part-cleaned', { ...done, seen_through: false });
    expect(messages(one)).toEqual([
      'block, rebored: not proven clean, seen through still wanted; it was blasted, and grit may be in every passage',
    ]);
    one.desk.write('part-cleaned', { ...done, seen_through: true });
    expect(messages(one)).toEqual([]);
    one.desk.write('part-reworked', { part: 'block', what: 'decked', condition: 'machined' });
    expect(messages(one)).toHaveLength(1);
  });
});

describe('joints', () => {
  const START = Date.parse('2026-01-05T08:00:00Z');
  const HOUR = 3_600_000;

  it('finger-tight holds, tight does not', () => {
    const one = bench();
    one.desk.write('joint-state', { joint: 'plug', state: 'finger-tight' });
    expect(messages(one)).toEqual(['Core plug: finger-tight']);
    one.desk.write('joint-state', { joint: 'plug', state: 'tight' });
    expect(messages(one)).toEqual([]);
  });

  it('what cures holds until its time is over, and without a clock nobody can tell', () => {
    const one = bench();
    one.desk.write('joint-state', {
      joint: 'plug',
      state: 'curing',
      started: '2026-01-05T08:00:00Z',
      cures_after: '24 h',
      product: 'sealant',
    });
    expect(messages(one, 'crank-in', START + HOUR)).toEqual([
      'Core plug, sealant: curing until Tue 6 Jan 2026, 08:00 UTC, 23 h to go',
    ]);
    expect(messages(one, 'crank-in', START + 24 * HOUR)).toEqual([]);
    expect(jointMoments(one.book())).toEqual([START - HOUR / 12, START + 24 * HOUR]);
    expect(messages(one)).toHaveLength(1);
  });

  it('a wet sealant holds only when it has lain open too long', () => {
    const one = bench();
    one.desk.write('joint-state', {
      joint: 'plug',
      state: 'curing',
      started: '2026-01-05T08:00:00Z',
      close_within: '10 min',
      cures_after: '24 h',
    });
    expect(messages(one, 'crank-in', START + 5 * 60_000)).toEqual([]);
    // Without a clock nobody can tell whether there is time left.
    expect(messages(one)).toHaveLength(1);
    expect(messages(one, 'crank-in', START + 25 * 60_000)).toEqual([
      'Core plug: it has lain open for 25 min, 10 min are allowed: clean it off and begin again',
    ]);
  });
});

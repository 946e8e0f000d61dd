import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../ledger/entry.ts';
import { inOrder, merged } from '../ledger/ledger.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { Desk } from '../testing/desk.ts';
import { inches, tinySheet } from '../testing/tiny-sheet.ts';
import { foldedBook } from './fold.ts';

const TINY = tinySheet({
  positions: [
    { id: 'left', name: 'Left' },
    { id: 'right', name: 'Right' },
  ],
  characteristics: [inches('shaft.size', { position: 'left' })],
});

/** One thing a desk does, chosen by small numbers so that desks often do the same and often collide. */
type Deed = { desk: number; what: number; which: number; other: number };
const deed: fc.Arbitrary<Deed> = fc.record({
  desk: fc.nat(2),
  what: fc.nat(10),
  which: fc.nat(2),
  other: fc.nat(40),
});

function done(desks: Desk[], { desk: index, what, which, other }: Deed): void {
  const desk = desks[index]!;
  const part = `p${which}`;
  const position = other % 2 === 0 ? 'left' : 'right';
  const some = desk.entries[other % Math.max(1, desk.entries.length)];
  if (what === 0) desk.sees(desks[which]!);
  else if (what === 1) desk.sees(...desks);
  else if (what === 2) desk.write('part-entered', { part, name: part, condition: 'used' });
  else if (what === 3) desk.write('part-fitted', { position, part: other % 5 === 0 ? null : part });
  else if (what === 4)
    desk.write('part-reworked', { part, what: `to size ${other % 3}`, condition: 'machined' });
  else if (what === 5)
    desk.write('spec-adopted', { sheet: other % 4 === 0 ? '0'.repeat(64) : TINY.hash, title: 't' });
  else if (what === 6)
    desk.write('disposition', { part, decision: other % 2 ? 'reuse' : 'replace', why: `${other}` });
  else if (what === 7)
    desk.write('reading', {
      characteristic: 'shaft.size',
      instrument: 'mic',
      value: '1 in',
      ...(some && { state: some.id }),
    });
  else if (what === 8 && other % 8 === 0) desks.push(desk.copied());
  // Of whatever there is: openings, strikes and strikes of strikes among them.
  else if (some) desk.strike(some);
}

/** A ledger that three devices, and copies of them that go on under the same name, came to honestly. */
const ledgers: fc.Arbitrary<Entry[]> = fc.array(deed, { minLength: 1, maxLength: 40 }).map((deeds) => {
  const first = new Desk('a');
  first.write('job-opened', { title: 'A job' });
  const desks = [first, first.beside('b'), first.beside('c')];
  for (const each of deeds) done(desks, { ...each, desk: each.desk % desks.length });
  return desks.reduce((all, desk) => merged(all, desk.entries), [] as Entry[]);
});

const folded = (entries: readonly Entry[]) => foldedBook(entries, TINY.sheets, readSheet);

describe('the fold', () => {
  it('gives the same book under any order of arrival', () => {
    fc.assert(
      fc.property(
        ledgers.chain((all) =>
          fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
        ),
        ([all, shuffled]) => void expect(folded(shuffled)).toEqual(folded(all)),
      ),
      { numRuns: 150 },
    );
  });

  it('gives the same book one batch at a time, with batches arriving again', () => {
    fc.assert(
      fc.property(ledgers, fc.array(fc.nat(3), { minLength: 60, maxLength: 60 }), (all, batchOf) => {
        const batches = [0, 1, 2, 3].map((b) => all.filter((_, i) => batchOf[i % 60] === b));
        let book = folded([]);
        for (const batch of [...batches, batches[0]!]) book = folded(merged(book.entries, batch));
        expect(book).toEqual(folded(all));
      }),
      { numRuns: 100 },
    );
  });

  it('drops no entry, whatever it thinks of it', () => {
    fc.assert(
      fc.property(ledgers, (all) => void expect(folded(all).entries).toEqual([...all].sort(inOrder))),
      {
        numRuns: 50,
      },
    );
  });

  it('lets each strike of an unstruck strike hold, and no other', () => {
    fc.assert(
      fc.property(ledgers, (all) => {
        const book = folded(all);
        const idle = new Set(book.idleStrikes.map(({ strike }) => strike));
        const strikes = book.entries.filter(({ kind, id }) => kind === 'strike' && !idle.has(id));
        const holding = strikes.filter(({ id }) => !book.struck.has(id)).map(({ body }) => body.entry);
        // What the definition says, checked against the answer instead of computed the same way.
        expect(new Set(holding)).toEqual(book.struck);
      }),
      { numRuns: 150 },
    );
  });
});

describe('what the program does not know or have', () => {
  it('keeps an unknown kind and an unknown version, and shows both as unknown', () => {
    const desk = new Desk('a');
    desk.write('job-opened', { title: 'A job' });
    const note = desk.write('note', { text: 'stands in' });
    const kind = { ...note, id: note.id.replace(/.$/, '1'), n: 3, kind: 'part-photographed' };
    const version = { ...note, id: note.id.replace(/.$/, '2'), n: 4, v: 2, body: { lines: ['new'] } };
    const book = folded([...desk.entries, kind, version]);
    expect(book.unknown).toEqual([kind, version]);
    expect(book.notes.map(({ entry }) => entry)).toEqual([note]);
    expect(book.entries).toHaveLength(4);
  });

  it('keeps an unknown kind that is struck', () => {
    const desk = new Desk('a');
    const note = desk.write('note', { text: 'stands in' });
    const newer = { ...note, kind: 'part-photographed' };
    desk.entries = [newer];
    desk.strike(newer);
    expect(folded(desk.entries)).toMatchObject({ unknown: [newer], struck: new Set([newer.id]) });
  });

  it('shows a sheet that is not here as missing, and takes no other in its place', () => {
    const desk = new Desk('a');
    desk.write('spec-adopted', { sheet: TINY.hash, title: 'here' });
    desk.write('spec-adopted', { sheet: 'e'.repeat(64), title: 'elsewhere' });
    const book = folded(desk.entries);
    expect(book.missingSheets).toEqual(['e'.repeat(64)]);
    expect(book.sheetHash).toBe('e'.repeat(64));
    expect(book.sheet).toBeUndefined();
    expect(book.characteristics.size).toBe(0);
  });

  it('says that a reading does not read, rather than leave it out in silence', () => {
    const desk = new Desk('a');
    desk.write('spec-adopted', { sheet: TINY.hash, title: 'here' });
    const part = desk.write('part-entered', { part: 'p', name: 'p', condition: 'used' });
    desk.write('instrument-declared', {
      instrument: 'mic',
      name: 'Micrometer',
      type: 'micrometer',
      uncertainty: { expanded: '0.0002 in', coverage: 2, common_share: 0.5 },
      trust: 'stated',
    });
    const bad = desk.write('reading', {
      characteristic: 'shaft.size',
      instrument: 'mic',
      state: part.id,
      value: '20 psi',
    });
    expect(folded(desk.entries).problems).toMatchObject([
      { code: 'reading/unreadable', at: bad.id, got: '20 psi' },
    ]);
  });
});

describe('what rests on a struck entry', () => {
  const desk = new Desk('a');
  desk.write('spec-adopted', { sheet: TINY.hash, title: 'here' });
  const entered = desk.write('part-entered', { part: 'p', name: 'p', condition: 'used' });
  const declared = desk.write('instrument-declared', {
    instrument: 'mic',
    name: 'Micrometer',
    type: 'micrometer',
    uncertainty: { expanded: '0.0002 in', coverage: 2, common_share: 0.5 },
    trust: 'stated',
  });
  const reworked = desk.write('part-reworked', { part: 'p', what: 'ground', condition: 'machined' });
  const on = (state: string) =>
    desk.write('reading', { characteristic: 'shaft.size', instrument: 'mic', state, value: '1 in' });
  const [first, second] = [on(entered.id), on(reworked.id)];
  const standings = (d: Desk) => {
    const book = folded(d.entries);
    return [first, second].map(({ id }) => book.readings.find(({ entry }) => entry.id === id)?.standing);
  };

  it('is kept and not judged, and comes back when the strike is struck', () => {
    const here = desk.beside('b');
    expect(standings(here)).toEqual(['counts', 'counts']);
    const strike = here.strike(reworked);
    expect(standings(here)).toEqual(['counts', 'rests-on-struck']);
    here.strike(strike);
    expect(standings(here)).toEqual(['counts', 'counts']);
  });

  it('is so for what a rework rests on in turn', () => {
    const here = desk.beside('b');
    here.strike(entered);
    expect(standings(here)).toEqual(['rests-on-struck', 'rests-on-struck']);
  });

  it('is so for the instrument', () => {
    const here = desk.beside('b');
    const strike = here.strike(declared);
    expect(standings(here)).toEqual(['instrument-unknown', 'instrument-unknown']);
    here.strike(strike);
    expect(standings(here)).toEqual(['counts', 'counts']);
  });

  it('and a struck reading itself stays on record as struck', () => {
    const here = desk.beside('b');
    here.strike(first);
    expect(standings(here)).toEqual(['struck', 'counts']);
  });
});

const offered = (price: number) => ({
  offer: 'grind',
  name: 'Grind',
  price,
  restores: [],
  repairs: [],
  needs: [],
  excludes: [],
  trust: 'quoted' as const,
});

it('of an offer the later word counts, and striking it brings back the one before', () => {
  const desk = new Desk('a');
  desk.write('repair-offered', offered(510));
  const dearer = desk.write('repair-offered', offered(560));
  const price = (entries: readonly Entry[]) =>
    foldedBook(entries, TINY.sheets, readSheet).offers.get('grind')?.body.price;
  expect(price(desk.entries)).toBe(560);
  desk.strike(dearer);
  expect(price(desk.entries)).toBe(510);
});

it('two desks that price one offer differently are in conflict, and neither counts', () => {
  const one = new Desk('a');
  const other = new Desk('b');
  one.write('repair-offered', offered(510));
  other.write('repair-offered', offered(560));
  const book = foldedBook(one.sees(other).entries, TINY.sheets, readSheet);
  expect(book.offers.size).toBe(0);
  expect(book.conflicts).toHaveLength(1);
});

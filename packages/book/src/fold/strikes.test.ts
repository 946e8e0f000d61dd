import { describe, expect, it } from 'vitest';
import type { Entry } from '../ledger/entry.ts';
import { inOrder } from '../ledger/ledger.ts';
import { Desk } from '../testing/desk.ts';
import { strikesOf } from './strikes.ts';

const opened = () => {
  const desk = new Desk('a');
  const opening = desk.write('job-opened', { title: 'A job' });
  const note = desk.write('note', { text: 'a line' });
  return { desk, opening, note };
};
const struckIn = (entries: readonly Entry[]) => [...strikesOf([...entries].sort(inOrder)).struck];

describe('an entry is struck while at least one strike of it is itself unstruck', () => {
  it('by one strike, until that is struck, and again when that is struck in turn', () => {
    const { desk, note } = opened();
    const first = desk.strike(note);
    expect(struckIn(desk.entries)).toEqual([note.id]);
    const second = desk.strike(first);
    expect(struckIn(desk.entries)).toEqual([first.id]);
    desk.strike(second);
    expect(new Set(struckIn(desk.entries))).toEqual(new Set([second.id, note.id]));
  });

  it('by two strikes, until both are struck', () => {
    const { desk, note } = opened();
    const other = desk.beside('b');
    const [one, two] = [desk.strike(note), other.strike(note)];
    desk.sees(other);
    desk.strike(one);
    expect(struckIn(desk.entries)).toContain(note.id);
    desk.strike(two);
    expect(struckIn(desk.entries)).not.toContain(note.id);
  });
});

describe('a strike without effect is shown', () => {
  it('when it arrives before its target, and works once that is here', () => {
    const { desk, note } = opened();
    const strike = desk.strike(note);
    const without = desk.entries.filter(({ id }) => id !== note.id);
    expect(strikesOf(without)).toEqual({
      struck: new Set(),
      idle: [{ strike: strike.id, target: note.id, why: 'target-not-here' }],
    });
    expect(strikesOf(desk.entries)).toEqual({ struck: new Set([note.id]), idle: [] });
  });

  it('when its writer had not folded the target', () => {
    const { desk, note } = opened();
    const stranger = new Desk('b');
    const strike = stranger.strike(note);
    expect(strikesOf(desk.sees(stranger).entries)).toEqual({
      struck: new Set(),
      idle: [{ strike: strike.id, target: note.id, why: 'target-not-seen' }],
    });
  });

  it('when it would strike the opening of the job, or itself', () => {
    const { desk, opening } = opened();
    const strike = desk.strike(opening);
    const self = desk.write('strike', { entry: '00000000-0000-7000-8000-000000000000', why: 'x' });
    const selfish = { ...self, body: { ...self.body, entry: self.id } };
    const found = strikesOf([...desk.entries.slice(0, -1), selfish]);
    expect(found.struck.size).toBe(0);
    expect(found.idle.map(({ strike: id, why }) => [id, why])).toEqual([
      [strike.id, 'opening-cannot-be-struck'],
      [self.id, 'target-not-seen'],
    ]);
  });

  it('but not when it has been struck itself', () => {
    const { desk, opening } = opened();
    desk.strike(desk.strike(opening));
    expect(strikesOf(desk.entries).idle).toEqual([]);
  });
});

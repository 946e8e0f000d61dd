import { describe, expect, it } from 'vitest';
import { readSheet } from '../sheet/read-sheet.ts';
import { Desk } from '../testing/desk.ts';
import { foldedBook } from './fold.ts';

function desk(): Desk {
  const opened = new Desk('a');
  opened.write('job-opened', { title: 'A job' });
  for (const part of ['old', 'new']) opened.write('part-entered', { part, name: part, condition: 'used' });
  return opened;
}
const folded = (d: Desk) => foldedBook(d.entries, new Map(), readSheet);
const now = (d: Desk, position: string) => folded(d).positions.get(position)?.now?.part;
const found = (d: Desk, position: string) => folded(d).positions.get(position)?.asFound;

describe('fitting', () => {
  it('displaces what was there, empties the place the part came from, and null takes out', () => {
    const a = desk();
    a.write('part-fitted', { position: 'here', part: 'old' });
    expect(now(a, 'here')).toBe('old');
    a.write('part-fitted', { position: 'here', part: 'new', way: 'arrow forward' });
    expect(now(a, 'here')).toBe('new');
    expect(folded(a).positions.get('here')?.now?.way).toBe('arrow forward');
    a.write('part-fitted', { position: 'there', part: 'new' });
    expect([now(a, 'here'), now(a, 'there')]).toEqual([undefined, 'new']);
    a.write('part-fitted', { position: 'there', part: null });
    expect(now(a, 'there')).toBeUndefined();
  });

  it('of a part nobody has entered leaves the place empty until it is', () => {
    const a = desk();
    a.write('part-fitted', { position: 'here', part: 'unheard-of' });
    expect(now(a, 'here')).toBeUndefined();
    a.write('part-entered', { part: 'unheard-of', name: 'x', condition: 'new' });
    expect(now(a, 'here')).toBe('unheard-of');
  });
});

describe('as found', () => {
  it('is the first part in its first state, and stays so through rework and exchange', () => {
    const a = desk();
    a.write('part-fitted', { position: 'here', part: 'old' });
    const state = found(a, 'here')!.state;
    a.write('part-reworked', { part: 'old', what: 'ground', condition: 'machined' });
    a.write('part-fitted', { position: 'here', part: 'new' });
    expect(found(a, 'here')).toMatchObject({ part: 'old', state });
    a.write('part-fitted', { position: 'here', part: null });
    expect(found(a, 'here')).toMatchObject({ part: 'old', state });
  });

  it('is unknown while two who did not know of each other differ, and then what one who saw both says', () => {
    const a = desk();
    const b = a.beside('b');
    a.write('part-fitted', { position: 'here', part: 'old' });
    b.write('part-fitted', { position: 'here', part: 'new' });
    a.sees(b);
    expect(found(a, 'here')).toBeUndefined();
    a.write('part-fitted', { position: 'here', part: 'new' });
    expect(found(a, 'here')?.part).toBe('new');
  });
});

describe('states', () => {
  it('begin with each rework, named by its entry, in its condition and size', () => {
    const a = desk();
    a.write('part-fitted', { position: 'here', part: 'old' });
    const ground = a.write('part-reworked', {
      part: 'old',
      what: 'ground',
      condition: 'machined',
      size: '.010 under',
    });
    const part = folded(a).parts.get('old')!;
    expect(part.states).toHaveLength(2);
    expect(part.current).toEqual({
      id: ground.id,
      condition: 'machined',
      size: '.010 under',
      what: 'ground',
    });
    expect(folded(a).positions.get('here')?.now?.state).toBe(ground.id);
    a.strike(ground);
    expect(folded(a).parts.get('old')!.current.condition).toBe('used');
  });

  it('of a part entered twice are the first entering’s, and that is said', () => {
    const a = desk();
    const again = a.write('part-entered', { part: 'old', name: 'old', condition: 'new' });
    const book = folded(a);
    expect(book.parts.get('old')?.current.condition).toBe('used');
    expect(book.problems).toMatchObject([{ code: 'part/entered-twice', at: again.id }]);
    a.strike(again);
    expect(folded(a).problems).toEqual([]);
  });
});

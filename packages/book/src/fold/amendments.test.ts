import { expect, it } from 'vitest';
import { readSheet } from '../sheet/read-sheet.ts';
import { Desk } from '../testing/desk.ts';
import { inches, tinySheet } from '../testing/tiny-sheet.ts';
import { foldedBook } from './fold.ts';

const TINY = tinySheet({
  characteristics: [inches('shaft.size', { limits: { wear: { lower: '0.9 in' } } }), inches('hole.size')],
});

function amended(characteristic: string, change: Record<string, unknown>) {
  const desk = new Desk('a');
  desk.write('spec-adopted', { sheet: TINY.hash, title: 't' });
  desk.write('characteristic-amended', { characteristic, change, why: 'a better source' });
  return foldedBook(desk.entries, TINY.sheets, readSheet);
}

it('replaces what an amendment names and leaves the rest as the sheet has it', () => {
  const book = amended('shaft.size', { limits: { wear: { lower: '0.95 in' } } });
  expect(book.problems).toEqual([]);
  expect(book.characteristics.get('shaft.size')).toMatchObject({
    name: 'shaft.size',
    limits: { wear: { lower: '0.95 in' } },
  });
  expect([...book.characteristics.keys()]).toEqual(['shaft.size', 'hole.size']);
});

it.each([
  ['a limit of another kind', 'shaft.size', { limits: { wear: { lower: '20 psi' } } }],
  ['a relation that rests on nothing', 'hole.size', { relation: 'no.such' }],
  ['a relation that runs in a circle', 'hole.size', { relation: 'hole.size' }],
  ['a field no characteristic has', 'hole.size', { colour: 'red' }],
])('leaves %s out, and says so', (_, characteristic, change) => {
  const book = amended(characteristic, change);
  expect(book.problems).toMatchObject([{ code: 'amendment/does-not-fit' }]);
  expect(book.characteristics.get(characteristic)).toEqual(
    TINY.sheet.characteristics.find(({ id }) => id === characteristic),
  );
});

it('adds a characteristic the sheet lacks, when it is whole', () => {
  expect(amended('pin.size', inches('pin.size')).characteristics.get('pin.size')?.kind).toBe('length');
  expect(amended('pin.size', { name: 'Pin' }).problems).toMatchObject([{ code: 'amendment/does-not-fit' }]);
});

it('waits for a sheet that is not here', () => {
  const desk = new Desk('a');
  desk.write('spec-adopted', { sheet: TINY.hash, title: 't' });
  desk.write('characteristic-amended', { characteristic: 'shaft.size', change: { name: 'Shaft' }, why: 'w' });
  const without = foldedBook(desk.entries, new Map(), readSheet);
  expect(without.problems).toEqual([]);
  expect(without.amended.size).toBe(1);
  expect(foldedBook(desk.entries, TINY.sheets, readSheet).characteristics.get('shaft.size')?.name).toBe(
    'Shaft',
  );
});

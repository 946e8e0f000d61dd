import { expect, it } from 'vitest';
import { Bench } from '../testing/bench.ts';
import { inches } from '../testing/tiny-sheet.ts';
import { arrowWord, plainName, tagLines } from '../words/tags.ts';
import { shortId, shortIdMeant } from './short-id.ts';
import { tagOf } from './tag.ts';
import { partSought, tagCode } from './tag-code.ts';
import { tagGrid } from './tag-sizes.ts';

const SHEET = {
  axes: { rod: ['1', '2'] },
  positions: [{ id: 'rod-{rod}', name: 'Rod', places: ['rod'] }],
  characteristics: [inches('rod.bore', { position: 'rod-{rod}', places: ['rod'] })],
};

function bench() {
  const one = new Bench(SHEET);
  one.desk.write('part-entered', { part: 'rod-2-cap', name: 'Rod 2, cap', condition: 'used' });
  one.desk.write('part-entered', { part: 'rod-2', name: 'Rod 2', condition: 'used' });
  one.desk.write('part-fitted', { position: 'rod-2', part: 'rod-2' });
  return one;
}

it('a tag has the plain name, where the part belongs and how that is known, way round and partners', () => {
  const one = bench();
  one.desk.write('part-marked', {
    part: 'rod-2-cap',
    home: 'rod-2',
    way: 'number to the camshaft',
    partners: ['rod-2'],
  });
  const book = one.book();
  const tag = tagOf(book, book.parts.get('rod-2-cap')!);
  expect(plainName(tag.part)).toBe('ROD 2 · CAP');
  expect(tag.belongs).toEqual({ by: 'marked', position: 'rod-2', name: 'Rod, rod 2' });
  expect(arrowWord(tag.way!)).toBe('CAMSHAFT');
  expect(tag.partners.map(({ id }) => id)).toEqual(['rod-2']);
  expect(tagLines(tag).join('\n')).toContain(tag.short);
  // What only stands in a place has no home there until somebody says so.
  expect(tagOf(book, book.parts.get('rod-2')!).belongs?.by).toBe('fitted');
});

it('names no place for a part that nobody placed, and only the first place for one taken out', () => {
  const one = bench();
  one.desk.write('part-fitted', { position: 'rod-2', part: null });
  const book = one.book();
  expect(tagOf(book, book.parts.get('rod-2-cap')!).belongs).toBeUndefined();
  expect(tagOf(book, book.parts.get('rod-2')!).belongs).toMatchObject({ by: 'found', position: 'rod-2' });
});

it('a part is found by its id, by its short id as it may be mistyped, and by the address on its tag', () => {
  const book = bench().book();
  const found = (text: string) => {
    const part = partSought(book, text);
    return part.ok ? part.value.id : part.issues[0]!.code;
  };
  expect(found('rod-2')).toBe('rod-2');
  expect(found(' ROD-2-CAP\n')).toBe('rod-2-cap');
  for (const id of ['rod-2', 'rod-2-cap']) {
    const short = shortId(id);
    expect(short).toMatch(/^[0-9A-HJKMNP-TV-Z]{5}$/);
    expect(found(short)).toBe(id);
    expect(found(short.toLowerCase().replaceAll('0', 'o').replaceAll('1', 'l'))).toBe(id);
    expect(found(tagCode(book, id, 'http://192.0.2.7:4173/'))).toBe(id);
    expect(found(tagCode(book, id))).toBe(id);
  }
  expect(found('zzzzz')).toBe('tag/no-such-part');
  expect(found('http://192.0.2.7/#/01920000-0000-7000-8000-00000000ffff/part/rod-2')).toBe('tag/other-job');
  expect(shortIdMeant('iou1l')).toBe('10V11');
});

it('an address leads to the part whether or not the page’s own was given with a stroke at its end', () => {
  const book = bench().book();
  const address = `http://192.0.2.7:4173/#/${book.job}/part/rod-2`;
  expect(tagCode(book, 'rod-2', 'http://192.0.2.7:4173')).toBe(address);
  expect(tagCode(book, 'rod-2', 'http://192.0.2.7:4173/#/x')).toBe(address);
  expect(tagCode(book, 'rod-2')).toBe('rod-2');
});

it('labels lie within what a printer reaches on both papers', () => {
  // By hand: 200 / 65 is 3, 287 / 40 is 7 on A4; 205.9 / 50 is 4, 269.4 / 30 is 8 on Letter.
  expect(tagGrid('65x40', 'a4')).toMatchObject({ columns: 3, rows: 7, left: 7.5, top: 8.5 });
  expect(tagGrid('50x30', 'letter')).toMatchObject({ columns: 4, rows: 8 });
  expect(tagGrid('100x55', 'a4')).toMatchObject({ columns: 2, rows: 5 });
});

import { asFittedNow, assessment, entryHash, relationWords } from '@fettle/book';
import { CATALOGUE, sha256OfJson } from '@fettle/core';
import { expect, it } from 'vitest';
import { begun, folded, lived, Writer } from '../testing/linnet-job.ts';
import { whenWords } from '../words/entry.ts';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import { unitSign } from '../words/unit.ts';
import { groupedReasons } from './covers.ts';
import { ledgerFingerprint } from './fingerprint.ts';
import { mapPages } from './maps.ts';

it('prints the sheet’s own digits with the unit as a person writes it', () => {
  expect(printedQuantity('80 lbf.ft')).toBe('80 lbf·ft');
  expect(printedQuantity('0.0080in')).toBe('0.0080 in');
  expect(printedQuantity('6 degC')).toBe('6 °C');
  expect(printedQuantity('3 %')).toBe('3%');
  expect(printedQuantity('about so much')).toBe('about so much');
  expect(rangeWords('80 lbf.ft', '85 lbf.ft')).toBe('80 to 85 lbf·ft');
  expect(rangeWords(undefined, '0.0040 in')).toBe('max 0.0040 in');
  expect(rangeWords('15 psi', undefined)).toBe('min 15 psi');
});

it('takes g for grams: standard gravity is written gn', () => {
  expect(unitSign('g')).toBe('g');
  expect(unitSign('deg')).toBe('°');
  expect(unitSign('furlong')).toBe('furlong');
});

it('shortens a time and keeps an offset that is not UTC', () => {
  expect(whenWords('2025-04-22T08:31:00.000Z')).toBe('2025-04-22 08:31');
  expect(whenWords('2025-04-22T08:31:00+02:00')).toBe('2025-04-22 08:31 +02:00');
  expect(whenWords('yesterday')).toBe('yesterday');
});

it('fingerprints a ledger by the last entry of each writer, and so by every entry', () => {
  const desk = new Writer('desk', 'one');
  desk.write('job-opened', { title: 'A' });
  const last = desk.write('note', { text: 'b' });
  const { fingerprint, heads } = ledgerFingerprint(desk.entries);
  expect(heads).toEqual([{ device: 'desk', n: 2, hash: entryHash(last) }]);
  expect(fingerprint).toBe(sha256OfJson([entryHash(last)]));
  const altered = desk.entries.map((entry) => ({ ...entry }));
  altered[0] = { ...altered[0]!, who: 'another' };
  expect(ledgerFingerprint(altered).fingerprint).not.toBe(fingerprint);
  expect(ledgerFingerprint([...desk.entries].reverse()).fingerprint).toBe(fingerprint);
});

it('puts the places of one reason together', () => {
  const book = folded(lived().desk.entries);
  expect(
    groupedReasons(book, [
      { code: 'reading/missing', about: 'ring.gap@1/top', message: 'Ring gap, 1/top: not read' },
      { code: 'reading/missing', about: 'ring.gap@1/oil', message: 'Ring gap, 1/oil: not read' },
      { code: 'verdict/out', about: 'pan.rail', message: 'Pan rail, around the screw holes: out' },
      { code: 'ledger/conflict', about: 'x', message: 'Two devices disagree about x' },
    ]),
  ).toEqual([
    'Ring gap, 1/top, 1/oil: not read',
    'Pan rail, around the screw holes: out',
    'Two devices disagree about x',
  ]);
});

it('writes a relation as a formula with the names of the sheet', () => {
  const book = folded(lived().desk.entries);
  expect(
    relationWords(
      {
        linear: {
          terms: [
            { factor: 1, of: 'bore.diameter' },
            { factor: -2, of: 'ring.gap' },
          ],
          constant: '-3.5000 in',
        },
      },
      (id) => book.characteristics.get(id)?.name ?? id,
    ),
  ).toBe('Bore − 2 × Ring gap − 3.5000 in');
});

it('lays out what was read over two axes as one map, and over three as one strip a part', () => {
  const desk = begun({ title: 'Maps' });
  desk.instrument('leaves', 'Feeler leaves', 'feeler leaves', '0.0005 in');
  const block = desk.write('part-entered', { part: 'block', name: 'Block', condition: 'used' });
  desk.write('part-fitted', { position: 'block', part: 'block' });
  const piston = desk.write('part-entered', { part: 'p2', name: 'Piston 2', condition: 'new' });
  desk.write('part-fitted', { position: 'piston-2', part: 'p2' });
  for (const ring of ['top', 'second'])
    desk.write('reading', {
      characteristic: 'ring.gap',
      state: piston.id,
      mates: [block.id],
      place: { cylinder: '2', ring },
      instrument: 'leaves',
      value: '0.0120 in',
    });
  for (const height of ['top', 'mid'])
    desk.write('reading', {
      characteristic: 'bore.diameter',
      state: block.id,
      place: { cylinder: '3', height, axis: 'thrust' },
      instrument: 'leaves',
      value: '3.5042 in',
    });
  const book = folded(desk.entries);
  const maps = mapPages(book, assessment(book, asFittedNow(book), CATALOGUE).judgements);
  expect(maps.map(({ title }) => title)).toEqual([
    'S1 Bore',
    'S9 Bore wear: size at 20 °C less 3.5000 in',
    'S14 Ring gap',
  ]);
  const [bore, , gap] = maps;
  const count = (svg: string | undefined, mark: string): number => (svg ?? '').split(mark).length - 1;
  // Four strips of three heights by two axes; one of four cylinders by three rings.
  expect([count(bore?.svg, 'data-mark="strip"'), count(bore?.svg, 'data-cell=')]).toEqual([4, 24]);
  expect([count(gap?.svg, 'data-mark="strip"'), count(gap?.svg, 'data-cell=')]).toEqual([1, 12]);
  expect(count(gap?.svg, 'data-cell="missing"')).toBe(10);
  expect(gap?.words).toContain('By cylinder and ring, in');
  expect(gap?.svg).toContain('cylinder 2');
});

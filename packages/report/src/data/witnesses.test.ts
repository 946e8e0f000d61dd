import { asFittedNow, assessment } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { expect, it } from 'vitest';
import { begun, folded } from '../testing/linnet-job.ts';
import { witnessLines } from './witnesses.ts';

/** A taper worked out from two bores 0.0040 in apart, and read directly as well. */
function taperRead(direct: string) {
  const desk = begun({ title: 'Witnesses' });
  desk.instrument('tele', 'Telescoping gauge', 'telescoping gauge', '0.0007 in');
  desk.instrument('dial', 'Dial bore gauge', 'dial bore gauge', '0.0003 in');
  const block = desk.write('part-entered', { part: 'block', name: 'Block', condition: 'used' });
  desk.write('part-fitted', { position: 'block', part: 'block' });
  const read = (characteristic: string, place: Record<string, string>, instrument: string, value: string) =>
    desk.write('reading', { characteristic, state: block.id, place, instrument, value });
  for (const [height, value] of [
    ['top', '3.5055 in'],
    ['mid', '3.5030 in'],
    ['bottom', '3.5015 in'],
  ] as const)
    read('bore.diameter', { cylinder: '3', height, axis: 'thrust' }, 'tele', value);
  read('bore.taper', { cylinder: '3', axis: 'thrust' }, 'dial', direct);
  const book = folded(desk.entries);
  const { judgements } = assessment(book, asFittedNow(book), CATALOGUE);
  const taper = judgements.find(
    ({ characteristic, place }) => characteristic.id === 'bore.taper' && place.cylinder === '3',
  );
  return witnessLines(taper!);
}

it('shows each witness alone beside what they say together', () => {
  const [lines, ...others] = taperRead('0.0041 in');
  expect(others).toEqual([]);
  expect(lines).toMatchObject({ place: '3/thrust', governing: 'wear', agree: true, cut: false });
  expect(lines?.alone.map(({ way, known, wear }) => [way, known, wear])).toEqual([
    ['Dial bore gauge', '0.0041 in', 'in'],
    ['worked out', '0.0040 in', 'in'],
  ]);
  // Pooled by its uncertainties it lies with the finer witness.
  expect(lines?.together).toMatchObject({ known: '0.0041 in', wear: 'in' });
});

it('says that witnesses disagree, and believes neither where they judge differently', () => {
  const [lines] = taperRead('0.0085 in');
  expect(lines?.agree).toBe(false);
  expect(lines?.alone.map(({ wear }) => wear)).toEqual(['out', 'in']);
  expect(lines?.together.wear).toBe('cannot-tell');
});

it('says nothing where there is one witness', () => {
  const book = folded(begun({ title: 'None' }).entries);
  const { judgements } = assessment(book, asFittedNow(book), CATALOGUE);
  expect(judgements.flatMap(witnessLines)).toEqual([]);
});

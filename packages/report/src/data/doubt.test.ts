import type { Operand } from '@fettle/book';
import { expect, it } from 'vitest';
import { begun, folded } from '../testing/linnet-job.ts';
import { doubtWords } from './doubt.ts';

const desk = begun({ title: 'Doubt' });
desk.instrument('mic', 'Outside micrometers', 'micrometer', '0.0002 in');
const [one, two] = ['0', '90'].map((turn) =>
  desk.write('reading', {
    characteristic: 'crank.main-journal',
    place: { main: '2', end: 'front', turn },
    instrument: 'mic',
    value: '2.4986 in',
  }),
);
const book = folded(desk.entries);
const term = (source: string, u: number) => ({
  source,
  u,
  dof: Number.POSITIVE_INFINITY,
  shape: 'normal' as const,
});
const of = (...terms: readonly ReturnType<typeof term>[]): Operand => ({
  kind: 'value',
  q: { value: 1, terms },
});

it('names every cause with its share of the variance, largest first', () => {
  // 3² of 3² + 1² is 90 %: what counts is the square.
  expect(
    doubtWords(book, 'crank.main-journal', of(term(`reading:${one!.id}`, -1), term('instrument:mic', 3))),
  ).toBe('90 % the common error of Outside micrometers; 10 % that of the reading itself');
});

it('puts readings of one thing with one instrument together', () => {
  expect(
    doubtWords(
      book,
      'crank.main-out-of-round',
      of(term(`reading:${one!.id}`, 1), term(`reading:${two!.id}`, -1), term('thermometer', 1)),
    ),
  ).toBe(
    '67 % 2 readings, each its own error, of Main journal with Outside micrometers; 33 % the thermometer, none being declared, common to all its readings',
  );
});

it('says neither nothing nor all where it is not, and stays silent where there is no doubt', () => {
  expect(doubtWords(book, 'x', of(term('instrument:mic', 1), term('scatter:x', 0.05)))).toBe(
    'over 99 % the common error of Outside micrometers; under 1 % the rest',
  );
  expect(doubtWords(book, 'x', of())).toBe('');
  expect(doubtWords(book, 'x', { kind: 'missing' })).toBe('');
  expect(
    doubtWords(book, 'x', { kind: 'interval', upper: { value: 1, terms: [term('instrument:mic', 1)] } }),
  ).toBe('at its edges 100 % the common error of Outside micrometers');
});

import { adoptedStudy, builtInstrument } from '@fettle/book';
import { expect, it } from 'vitest';
import { begun, folded } from '../testing/linnet-job.ts';
import { instrumentPages } from './instruments.ts';

const desk = begun({ title: 'Tools' });
desk.instrument('stated', 'As stated', 'micrometer', '0.0002 in');
const built = builtInstrument(new Map(), { type: 'micrometer', settings: { range: '3 in' }, system: 'inch' });
if (!built.ok) throw new Error(JSON.stringify(built.issues));
desk.write('instrument-declared', {
  instrument: 'mic',
  name: 'Micrometer',
  type: 'micrometer',
  ...built.value,
});
desk.write('instrument-checked', {
  instrument: 'mic',
  against: '2 in',
  read: '2.0001 in',
  good: true,
  when: 'before',
});
desk.write('instrument-checked', {
  instrument: 'mic',
  against: '2 in',
  read: '2.001 in',
  good: false,
  when: 'after',
});
const page = (name: string) => instrumentPages(folded(desk.entries)).find((one) => one.name === name)!;

it('a built uncertainty is printed line by line, with what each is worth', () => {
  const { budget, sum, trust } = page('Micrometer');
  expect(budget.map(({ amount, percent, common }) => [amount, percent, common])).toEqual([
    ['± 5 μm', '77 %', true],
    ['± 1 μm', '3 %', true],
    ['± 0.0001 in', '5 %', false],
    ['± 0.0001 in', '15 %', false],
  ]);
  expect(sum).toContain('so U = 0.000259 in');
  expect(trust).toBe('its budget');
  expect(page('As stated')).toMatchObject({ budget: [], sum: '', trust: 'its owner', u: '0.0002 in, k = 2' });
});

it('checks before and after are printed with their arithmetic', () => {
  expect(page('Micrometer').checks.map(({ words, good }) => [words, good])).toEqual([
    ['before the readings, against 2 in it read 2.0001 in: 0.0001 in off, 0.000259 in allowed: good', true],
    ['after the readings, against 2 in it read 2.001 in: 0.001 in off, 0.000259 in allowed: failed', false],
  ]);
});

it('a study is printed, and once adopted it is not compared with itself', () => {
  const readings = ['1', '2', '3', '2', '1', '3'].map((digit) => ({ value: `2.000${digit} in` }));
  const study = desk.write('repeat-study', { instrument: 'mic', what: 'a journal', readings });
  expect(page('Micrometer').studies[0]).toMatchObject({ what: 'a journal' });
  expect(page('Micrometer').studies[0]?.words).toContain('Assumed so far');
  const body = adoptedStudy(folded(desk.entries), study.id);
  if (!body.ok) throw new Error(JSON.stringify(body.issues));
  desk.write('instrument-declared', body.value);
  const [printed] = page('Micrometer').studies;
  expect(printed?.what).toBe('a journal, adopted');
  expect(printed?.words).not.toContain('Assumed so far');
});

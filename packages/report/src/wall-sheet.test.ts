import { asFittedNow, assessment } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { expect, it } from 'vitest';
import { wallPages } from './data/wall.ts';
import { begun, folded, linnetSheet, lived } from './testing/linnet-job.ts';
import { fontsOf, infoOf, metadataOf, pagesOf, textOf } from './testing/pdf.ts';
import { wallSheetPdf } from './wall-sheet.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';
const pagesFor = (entries: Parameters<typeof folded>[0]) => {
  const book = folded(entries);
  return wallPages(book, assessment(book, asFittedNow(book), CATALOGUE).judgements, {
    printedAt: PRINTED_AT,
  });
};

it('asks for what was not measured, in the order of the sheet and of the bench, and for nothing else', () => {
  const { needed, optional } = pagesFor(lived().desk.entries);
  const order = linnetSheet().characteristics.map(({ name }) => name);
  for (const rows of [needed, optional]) {
    const places = rows.map(({ name }) => order.indexOf(name));
    expect(places).toEqual([...places].sort((a, b) => a - b));
  }
  expect(needed.some(({ name }) => name === 'Bore')).toBe(false);
  const journal = needed.find(({ name }) => name === 'Main journal');
  // Main 2 is read at all four places; 1 and 3 are left, rear after front, 90° after 0°.
  expect(journal?.boxes).toEqual([
    '1/front/0',
    '1/front/90',
    '1/rear/0',
    '1/rear/90',
    '3/front/0',
    '3/front/90',
    '3/rear/0',
    '3/rear/90',
  ]);
  expect(journal).toMatchObject({ unit: 'in', with: 'micrometer' });
  expect(journal?.limits).toBe('new 2.4990 to 2.5000 in, wear 2.4980 to 2.5000 in');
});

it('writes grams and degrees as such', () => {
  const { needed, optional } = pagesFor(begun({ title: 'Fresh' }).entries);
  const rows = [...needed, ...optional];
  expect(rows.find(({ name }) => name === 'Piston weight')?.unit).toBe('g');
  expect(rows.find(({ name }) => name.startsWith('Intake opens'))?.unit).toBe('°');
});

it('is set with a line for date and who, tagged, in its own typeface, on both papers', async () => {
  const book = folded(lived().desk.entries);
  const pdf = await wallSheetPdf({ book, paper: 'a4', printedAt: PRINTED_AT });
  const [first] = pagesOf(pdf);
  for (const words of ['Still to be measured', 'Date', 'Who', 'Ring gap', '1/top', '0.010 to 0.020 in'])
    expect(first).toContain(words);
  expect(metadataOf(pdf)).toContain('<pdfaid:part>2</pdfaid:part>');
  expect(infoOf(pdf).Tagged).toBe('yes');
  expect(infoOf(pdf)['Page size']).toContain('A4');
  for (const { name } of fontsOf(pdf)) expect(name).toMatch(/^AtkinsonHyperlegibleNext-/);
  const again = await wallSheetPdf({ book, paper: 'a4', printedAt: PRINTED_AT });
  expect(Buffer.from(again).equals(Buffer.from(pdf))).toBe(true);
  expect(infoOf(await wallSheetPdf({ book, paper: 'letter', printedAt: PRINTED_AT }))['Page size']).toContain(
    'letter',
  );
});

it('says so where there is no sheet and nothing to measure', async () => {
  const book = folded(begun({ title: 'Nothing' }).entries.slice(0, 1));
  expect(textOf(await wallSheetPdf({ book, paper: 'a4', printedAt: PRINTED_AT }))).toContain(
    'There is nothing to write in.',
  );
});

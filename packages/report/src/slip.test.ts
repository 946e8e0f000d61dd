import { expect, it } from 'vitest';
import { slipPages } from './data/slip.ts';
import { slipPdf } from './slip.ts';
import { folded, lived } from './testing/linnet-job.ts';
import { pagesOf, textOf } from './testing/pdf.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';

const decided = () => {
  const { desk } = lived();
  desk.write('disposition', {
    part: 'crank',
    decision: 'machine',
    size: '.010 under',
    why: 'worn <b>& tapered</b>',
  });
  return desk;
};

it('prints a page for each part to be machined, with the sizes, a box to write in and what to wash', async () => {
  const book = folded(decided().entries);
  const { components } = slipPages(book, { printedAt: PRINTED_AT });
  const crank = components.find(({ size }) => size === '.010 under')!;
  // S19 and S23 less .010.
  expect(crank.lines.map(({ name, wanted }) => `${name}: ${wanted}`)).toEqual(
    expect.arrayContaining(['Main journal: 2.4890 to 2.4900 in', 'Rod journal: 2.1140 to 2.1150 in']),
  );
  const pdf = await slipPdf({ book, paper: 'a4', printedAt: PRINTED_AT, printedBy: 'Ada' });
  const text = textOf(pdf).replace(/\s+/g, ' ');
  expect(text).toContain('2.4890 to 2.4900 in');
  expect(text).toContain('worn <b>& tapered</b>');
  expect(text).toContain('As returned, by the shop');
  expect(pagesOf(pdf)).toHaveLength(components.length);
});

it('prints one component alone, and says so plainly where nothing is to be machined', async () => {
  const book = folded(decided().entries);
  expect(slipPages(book, { printedAt: PRINTED_AT, component: 'crank' }).components).toHaveLength(1);
  const none = await slipPdf({
    book,
    paper: 'letter',
    printedAt: PRINTED_AT,
    printedBy: 'Ada',
    component: 'pan',
  });
  expect(textOf(none)).toContain('Nothing is decided to be machined yet');
});

it('sets what was measured on arrival against what was wanted', () => {
  const desk = decided();
  desk.write('part-reworked', { part: 'crank', what: 'ground', condition: 'machined', size: '.010 under' });
  const [crank] = slipPages(folded(desk.entries), { printedAt: PRINTED_AT, component: 'crank' }).components;
  expect(crank).toMatchObject({ back: true });
  expect(crank!.standing).toContain('what the shop wrote is no reading');
  expect(crank!.lines[0]!.returned.every(({ status }) => status === 'missing')).toBe(true);
});

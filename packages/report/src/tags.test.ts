import { TAG_SIZES, tagGrid, tagOf } from '@fettle/book';
import jsQR from 'jsqr';
import { expect, it } from 'vitest';
import { tagsPdf } from './tags.ts';
import { begun, folded } from './testing/linnet-job.ts';
import { fontsOf, infoOf, metadataOf, pagesOf, pictureOf, textOf } from './testing/pdf.ts';
import type { Paper } from './typeset.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';
const DPI = 300;
const DOTS = DPI / 25.4;

function tagged() {
  const desk = begun({ title: 'Tagged' });
  for (let i = 1; i <= 4; i++)
    desk.write('part-entered', { part: `rod-${i}-cap`, name: `Rod ${i}, cap`, condition: 'used' });
  desk.write('part-entered', {
    part: 'valve-spring-inner-of-the-long-kind-8',
    name: 'Valve spring of an extraordinarilylongkind, inner, 8',
    condition: 'new',
  });
  desk.write('part-marked', {
    part: 'rod-2-cap',
    home: 'rod-2',
    way: 'number to the camshaft',
    partners: ['rod-1-cap'],
  });
  return folded(desk.entries);
}

const book = tagged();
const parts = [...book.parts.values()];

/** What a decoder that is none of ours reads off one label of a printed page. */
function decoded(picture: ReturnType<typeof pictureOf>, grid: ReturnType<typeof tagGrid>, label: number) {
  const [x, y] = [label % grid.columns, Math.floor(label / grid.columns)];
  const left = Math.round((grid.left + x * grid.width) * DOTS);
  const top = Math.round((grid.top + y * grid.height) * DOTS);
  const [width, height] = [Math.round(grid.width * DOTS), Math.round(grid.height * DOTS)];
  const pixels = new Uint8ClampedArray(width * height * 4);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const grey = picture.grey[(top + row) * picture.width + left + column] ?? 255;
      pixels.set([grey, grey, grey, 255], (row * width + column) * 4);
    }
  return jsQR.default(pixels, width, height)?.data;
}

it('every label’s code says its part to an outside decoder, in each size, on both papers, with the page and without', async () => {
  for (const paper of ['a4', 'letter'] satisfies Paper[])
    for (const size of TAG_SIZES)
      for (const page of [undefined, 'http://192.0.2.7:4173/']) {
        const pdf = await tagsPdf({
          book,
          paper,
          size,
          from: 2,
          printedAt: PRINTED_AT,
          ...(page !== undefined && { page }),
        });
        const picture = pictureOf(pdf, 1, DPI);
        const grid = tagGrid(size, paper);
        // The first label was used before, and stays empty.
        expect(decoded(picture, grid, 0)).toBeUndefined();
        for (const [i, part] of parts.entries()) {
          const wanted = page === undefined ? part.id : `${page}#/${book.job}/part/${part.id}`;
          expect([size, decoded(picture, grid, i + 1)]).toEqual([size, wanted]);
        }
      }
}, 120_000);

it('prints name, home, way round, partners and short id, on the parts asked for', async () => {
  const pdf = await tagsPdf({
    book,
    paper: 'a4',
    size: '65x40',
    from: 1,
    printedAt: PRINTED_AT,
    parts: ['rod-2-cap'],
  });
  const text = textOf(pdf);
  const { short } = tagOf(book, book.parts.get('rod-2-cap')!);
  for (const words of [
    'ROD 2',
    'CAP',
    'CAMSHAFT',
    'number to the camshaft',
    'home: ',
    'with Rod 1, cap',
    short,
  ])
    expect(text).toContain(words);
  expect(text).not.toContain('ROD 3');
  expect(infoOf(pdf)['Page size']).toContain('A4');
  expect(metadataOf(pdf)).toContain('<pdfaid:part>2</pdfaid:part>');
  for (const { name } of fontsOf(pdf)) expect(name).toMatch(/^AtkinsonHyperlegibleNext-/);
});

it('goes on to another sheet where one is full, from the label it began with', async () => {
  const { columns, rows } = tagGrid('100x55', 'letter');
  const pdf = await tagsPdf({
    book,
    paper: 'letter',
    size: '100x55',
    from: columns * rows - 1,
    printedAt: PRINTED_AT,
  });
  const pages = pagesOf(pdf);
  expect(pages).toHaveLength(2);
  expect(pages[0]).toContain('ROD 2');
  expect(pages[0]).not.toContain('ROD 3');
  expect(pages[1]).toContain('ROD 3');
});

it('says so where no part is entered', async () => {
  const none = folded(begun({ title: 'None' }).entries);
  const pdf = await tagsPdf({ book: none, paper: 'a4', size: '50x30', from: 1, printedAt: PRINTED_AT });
  expect(textOf(pdf)).toContain('No part is entered yet');
});

import { asFittedNow, assessment, placesOf, placeText } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { expect, it } from 'vitest';
import { wallPages } from './data/wall.ts';
import { begun, folded, linnetSheet, lived } from './testing/linnet-job.ts';
import { fontsOf, infoOf, metadataOf, pagesOf, textOf, typeSizesOf } from './testing/pdf.ts';
import { wallSheetPdf } from './wall-sheet.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';
const pagesFor = (entries: Parameters<typeof folded>[0]) => {
  const book = folded(entries);
  const { judgements, gates } = assessment(book, asFittedNow(book), CATALOGUE);
  const { needed, optional, cover } = wallPages(book, judgements, gates, { printedAt: PRINTED_AT });
  const rowsOf = (groups: typeof needed) => groups.flatMap(({ rows }) => rows);
  return {
    groups: needed.map(({ name }) => name),
    needed: rowsOf(needed),
    optional: rowsOf(optional),
    cover,
  };
};

it('has its boxes in the order in which the bench goes from place to place', () => {
  for (const entries of [begun({ title: 'Not begun' }).entries, lived().desk.entries]) {
    const { needed, optional } = pagesFor(entries);
    // The bench goes by the sheet, then by the places of each characteristic, one axis within the other.
    const sheet = linnetSheet();
    const bench = sheet.characteristics.flatMap((characteristic) =>
      placesOf(sheet, characteristic).map(
        (place) => `${characteristic.name}@${placeText(place, characteristic.places)}`,
      ),
    );
    for (const rows of [needed, optional]) {
      const boxes = rows.flatMap(({ name, boxes: own }) =>
        own.map((box) => `${name.replace(/, continued$/, '')}@${box}`),
      );
      expect(boxes.length).toBeGreaterThan(0);
      expect(bench.filter((one) => boxes.includes(one))).toEqual(boxes);
    }
  }
});

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
  // Side by side as they are read: line by line it is the same order.
  expect(journal).toMatchObject({
    with: 'micrometer',
    heads: ['front/0', 'front/90', 'rear/0', 'rear/90'],
    down: 'main',
    lines: [
      { name: '1', boxes: ['', '', '', ''] },
      { name: '3', boxes: ['', '', '', ''] },
    ],
  });
  expect(journal?.limits).toBe('new 2.4990 to 2.5000 in, wear 2.4980 to 2.5000 in');
});

it('puts what is next and what the nearest cover waits for first, and counts the rest, where one page is too little', async () => {
  const { entries } = begun({ title: 'Fresh' });
  const { needed, optional, cover } = pagesFor(entries);
  expect(cover).toBe('Crank in, main caps on');
  const first = needed.filter((row) => row.first).map(({ name }) => name);
  expect(first).toContain('Main journal');
  expect(first).not.toContain('Valve spring load at 1.360 in');
  expect(needed[0]?.first).toBe(true);
  expect(optional.some((row) => row.first)).toBe(false);
  for (const paper of ['a4', 'letter'] as const) {
    const pdf = await wallSheetPdf({ book: folded(entries), paper, printedAt: PRINTED_AT });
    const pages = pagesOf(pdf);
    expect(pages.length).toBeGreaterThan(1);
    const [, more] = /(\d+) more boxes stand on the\s+following sheets/.exec(textOf(pdf)) ?? [];
    const all = [...needed, ...optional].reduce((sum, { boxes }) => sum + boxes.length, 0);
    expect(Number(more)).toBeGreaterThan(0);
    expect(Number(more)).toBeLessThan(all);
    expect(pages[0]).toContain('Main journal');
    expect(pages[0]).toContain('what “Crank in, main caps on” waits for');
    expect(pages.at(-1)).toContain('Points gap');
  }
});

it('holds more than a hundred boxes on one page of either paper, in type of 8 points', async () => {
  const sheet = linnetSheet();
  const whole = folded(begun({ title: 'Nearly done' }).entries);
  const left = sheet.characteristics.filter(
    ({ optional, group, relation, places }) =>
      relation === undefined &&
      (optional === true || group === 'Cam, valve gear') &&
      // A face probed spot by spot has too many to be left over.
      !places.some((axis) => sheet.spots?.[axis]),
  );
  const book = { ...whole, characteristics: new Map(left.map((one) => [one.id, one])) };
  const { judgements, gates } = assessment(book, asFittedNow(book), CATALOGUE);
  const { needed, optional } = wallPages(book, judgements, gates, { printedAt: PRINTED_AT });
  const boxes = [...needed, ...optional].flatMap(({ rows }) => rows.flatMap((row) => row.boxes));
  expect(boxes.length).toBeGreaterThan(120);
  for (const paper of ['a4', 'letter'] as const) {
    const pdf = await wallSheetPdf({ book, paper, printedAt: PRINTED_AT });
    expect(pagesOf(pdf)).toHaveLength(1);
    expect(textOf(pdf)).not.toContain('following sheets');
    const sizes = typeSizesOf(pdf);
    expect(sizes.length).toBeGreaterThan(400);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(7.99);
  }
});

it('goes on in another row where one characteristic has more places than a column holds', () => {
  const sheet = linnetSheet();
  const twelve = Array.from({ length: 12 }, (_, i) => `${i + 1}`);
  const book = folded([], sheet);
  const bore = sheet.characteristics.find(({ id }) => id === 'bore.diameter')!;
  const many = {
    ...book,
    sheet: { ...sheet, axes: { ...sheet.axes, cylinder: twelve } },
    characteristics: new Map([[bore.id, bore]]),
  };
  const { judgements, gates } = assessment(many, asFittedNow(many), CATALOGUE);
  const rows = wallPages(many, judgements, gates, { printedAt: PRINTED_AT }).needed.flatMap(
    (one) => one.rows,
  );
  expect(rows.map(({ name, lines, boxes }) => [name, lines.length, boxes.length])).toEqual([
    ['Bore', 20, 40],
    ['Bore, continued', 16, 32],
  ]);
  expect(rows[1]?.boxes[0]).toBe('7/bottom/thrust');
});

it('writes grams and degrees as such', () => {
  const { needed, optional } = pagesFor(begun({ title: 'Fresh' }).entries);
  const rows = [...needed, ...optional];
  expect(rows.find(({ name }) => name === 'Piston weight')?.limits).toBe('[g]');
  expect(rows.find(({ name }) => name.startsWith('Intake opens'))?.limits).toMatch(/^\d+ to \d+°$/);
});

it('is set with a line for date and who, tagged, in its own typeface, on both papers', async () => {
  const book = folded(lived().desk.entries);
  const pdf = await wallSheetPdf({ book, paper: 'a4', printedAt: PRINTED_AT });
  const [first] = pagesOf(pdf);
  for (const words of ['Still to be measured', 'Date', 'Who', 'Ring gap', 'second', '0.010 to 0.020 in'])
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

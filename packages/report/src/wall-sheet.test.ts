import { asFittedNow, assessment, placesOf, placeText } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';
import { expect, it } from 'vitest';
import { wallPages } from './data/wall.ts';
import { begun, folded, linnetSheet, lived } from './testing/linnet-job.ts';
import { fontsOf, framesOf, infoOf, metadataOf, pagesOf, textOf, typeSizesOf } from './testing/pdf.ts';
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

it('holds some eighty boxes on one page of either paper, in type of 8 points', async () => {
  const sheet = linnetSheet();
  const whole = folded(begun({ title: 'Nearly done' }).entries);
  const left = sheet.characteristics.filter(
    ({ optional, group, relation, places }) =>
      relation === undefined &&
      optional === true &&
      group !== 'Oil' &&
      // A face probed spot by spot has too many to be left over.
      !places.some((axis) => sheet.spots?.[axis]),
  );
  const book = { ...whole, characteristics: new Map(left.map((one) => [one.id, one])) };
  const { judgements, gates } = assessment(book, asFittedNow(book), CATALOGUE);
  const { needed, optional } = wallPages(book, judgements, gates, { printedAt: PRINTED_AT });
  const boxes = [...needed, ...optional].flatMap(({ rows }) => rows.flatMap((row) => row.boxes));
  expect(boxes.length).toBeGreaterThan(75);
  for (const paper of ['a4', 'letter'] as const) {
    const pdf = await wallSheetPdf({ book, paper, printedAt: PRINTED_AT });
    expect(pagesOf(pdf)).toHaveLength(1);
    expect(textOf(pdf)).not.toContain('following sheets');
    const sizes = typeSizesOf(pdf);
    expect(sizes.length).toBeGreaterThan(200);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(7.99);
  }
});

it('gives each box 9 mm of height and room for the figures asked, as the page is drawn', async () => {
  for (const entries of [begun({ title: 'Not begun' }).entries, lived().desk.entries])
    for (const paper of ['a4', 'letter'] as const) {
      const pdf = await wallSheetPdf({ book: folded(entries), paper, printedAt: PRINTED_AT });
      const frames = pagesOf(pdf).flatMap((_, i) => framesOf(pdf, i + 1));
      const { needed, optional } = pagesFor(entries);
      const rows = [...needed, ...optional];
      expect(frames).toHaveLength(rows.reduce((sum, { boxes }) => sum + boxes.length, 0));
      for (const { height } of frames) expect(height).toBeGreaterThanOrEqual(9);
      // A figure is written 3 mm wide, its point 1.5 mm: as many boxes are wide enough for so many as are asked for.
      const asked = rows.flatMap(({ digits, seen, boxes }) =>
        boxes.map(() => (seen ? 0 : (digits - 1) * 3 + 1.5)),
      );
      const byWidth = (a: number, b: number) => a - b;
      const widths = frames.map(({ width }) => width).sort(byWidth);
      for (const [i, wanted] of asked.sort(byWidth).entries())
        expect(widths[i]).toBeGreaterThanOrEqual(wanted);
      expect(rows.find(({ name }) => name === 'Main journal')?.digits).toBe('2.4990'.length);
    }
});

it('asks again for what nobody can tell, with the leaf or the tool to try next, and not for what another decides', () => {
  const desk = begun({ title: 'Again' });
  desk.instrument('indicator', 'Dial indicator', 'dial indicator', '0.0005 in');
  desk.write('instrument-declared', {
    instrument: 'leaves',
    name: 'Feeler leaves',
    type: 'feeler leaves',
    uncertainty: { expanded: '0.0005 in', coverage: 2, common_share: 0.5 },
    leaves: ['0.010 in', '0.012 in', '0.014 in', '0.016 in', '0.018 in', '0.020 in', '0.022 in'],
    trust: 'stated',
  });
  const part = desk.write('part-entered', { part: 'rings', name: 'Rings', condition: 'used' });
  desk.write('part-fitted', { position: 'piston-1', part: 'rings' });
  desk.write('reading', {
    characteristic: 'ring.gap',
    state: part.id,
    place: { cylinder: '1', ring: 'top' },
    instrument: 'leaves',
    goes: '0.018 in',
    stops: '0.022 in',
  });
  const { needed } = pagesFor(desk.entries);
  const gaps = needed.filter(({ name }) => name === 'Ring gap');
  expect(gaps.map(({ again, boxes }) => [again === '', boxes.includes('1/top')])).toEqual([
    [true, false],
    [false, true],
  ]);
  expect(gaps[1]?.again).toContain('0.020 in');
});

it('calls no two things by the same line of the sheet', () => {
  const { needed, optional } = pagesFor(begun({ title: 'Fresh' }).entries);
  const lines = [...needed, ...optional]
    .filter(({ name }) => !name.endsWith('continued'))
    .flatMap(({ line }) => (line === '' ? [] : [line]));
  expect(lines.length).toBeGreaterThan(60);
  expect(new Set(lines).size).toBe(lines.length);
  expect(lines).toContain('S31a');
  expect(lines).toContain('S31b');
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

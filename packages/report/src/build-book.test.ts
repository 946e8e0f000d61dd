import { beforeAll, expect, it } from 'vitest';
import { buildBookPdf } from './build-book.ts';
import { ledgerFingerprint } from './data/fingerprint.ts';
import { folded, linnetSheet, lived, PHOTO } from './testing/linnet-job.ts';
import { fontsOf, infoOf, metadataOf, pagesOf, textOf } from './testing/pdf.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';
const { desk, photo } = lived();
const book = folded(desk.entries);
const photos = new Map([[photo, new Uint8Array(PHOTO)]]);
const printed = () =>
  buildBookPdf({ book, paper: 'a4', printedAt: PRINTED_AT, printedBy: 'the owner', photos });

let pdf: Uint8Array;
let text: string;
/** What stands in narrow columns is broken over lines: compared without blanks. */
let packed: string;

beforeAll(async () => {
  pdf = await printed();
  text = textOf(pdf);
  packed = text.replaceAll(' ', '');
}, 60_000);

const says = (words: string) => expect(packed).toContain(words.replaceAll(' ', ''));

it('is PDF/A-2b by its own declaration, tagged, and carries no font but its own', () => {
  const metadata = metadataOf(pdf);
  expect(metadata).toContain('<pdfaid:part>2</pdfaid:part>');
  expect(metadata).toContain('<pdfaid:conformance>B</pdfaid:conformance>');
  expect(metadata).toContain('/StructTreeRoot');
  expect(infoOf(pdf).Tagged).toBe('yes');
  const fonts = fontsOf(pdf);
  expect(fonts.length).toBeGreaterThan(1);
  for (const { name, embedded } of fonts) {
    expect(name).toMatch(/^AtkinsonHyperlegibleNext-/);
    expect(embedded).toBe(true);
  }
});

it('comes out on A4 and on Letter', async () => {
  expect(infoOf(pdf)['Page size']).toContain('A4');
  const letter = await buildBookPdf({ book, paper: 'letter', printedAt: PRINTED_AT });
  expect(infoOf(letter)['Page size']).toContain('letter');
});

it('gives the same bytes for the same book, and others when printed at another time', async () => {
  expect(Buffer.from(await printed()).equals(Buffer.from(pdf))).toBe(true);
  const later = await buildBookPdf({ book, paper: 'a4', printedAt: '2026-05-02T09:30:00Z', photos });
  expect(Buffer.from(later).equals(Buffer.from(pdf))).toBe(false);
});

it('says on its cover whose it is, which state of the ledger it shows and who printed it when', () => {
  const [cover] = pagesOf(pdf);
  for (const words of [
    'Linnet on the bench',
    'Brackenhall Linnet 172',
    'the library service',
    book.job,
    ledgerFingerprint(book.entries).fingerprint,
    '2026-05-01 09:30, the owner',
  ])
    expect(cover).toContain(words);
});

it('accounts for every characteristic of the sheet, by id and by name', () => {
  const { characteristics } = linnetSheet();
  expect(characteristics.length).toBeGreaterThan(100);
  for (const { id, name } of characteristics) {
    says(id);
    says(name);
  }
});

it('keeps a struck reading with what was first said, who struck it and why', () => {
  says('2.4585 in');
  says('first said 2.4585');
  says('struck by the rebuilder: two figures changed places');
});

it('shows readings with instrument and temperature, and both verdicts', () => {
  says('part at 6 °C, instrument at 20 °C');
  says('Telescoping gauge, U 0.0007 in');
  says('max 0.0080 in');
  says('ISO 14253-1:2017');
  expect(text).toMatch(/cannot tell/);
});

it('shows the hold that was passed, the decision, the order, the torque and the gauge', () => {
  for (const words of [
    'Hold passed by the rebuilder',
    'to move the van',
    'machine, .010 under',
    'Main shells, .010 under',
    '41 N.m',
    'wrench left at the wrong unit',
    '7.5 psi',
    'against 1 in gauge block',
    'The worn pump cover',
  ])
    says(words);
  expect(text).not.toContain('The picture');
});

it('predicts the pressure and says what was taken as new', () => {
  says('Predicted pressure at the gauge');
  says('Not measured, and taken as new in the prediction:');
  says('min 15 psi');
});

it('tells of conflicts and of entries it does not know', () => {
  says('differ about disposition of block');
  says('sounding, version 1');
});

it('lists every entry of the ledger and what was not measured', () => {
  says('The ledger in brief');
  says('What was not measured');
  says('Ring gap');
  const ledger = pagesOf(pdf).slice(
    pagesOf(pdf).findIndex((page) => /\d\s+The ledger in brief/.test(page) && page.includes('Every entry')),
  );
  const numbers = new Set(
    ledger.flatMap((page) => [...page.matchAll(/^\s*(\d+)\s+20\d\d-/gm)].map(([, n]) => n)),
  );
  expect(numbers.size).toBe(book.entries.length);
});

it('numbers its pages "n of N" under a running head', () => {
  const pages = pagesOf(pdf);
  expect(pages.length).toBe(Number(infoOf(pdf).Pages));
  expect(pages[4]).toContain(`5 of ${pages.length}`);
  expect(pages[4]).toContain('Linnet on the bench');
});

it('is printed although a photograph is damaged or not there, and says so', async () => {
  const damaged = new Map([[photo, new Uint8Array(PHOTO.subarray(0, 40))]]);
  expect(textOf(await buildBookPdf({ book, paper: 'a4', printedAt: PRINTED_AT, photos: damaged }))).toContain(
    'The picture cannot be read.',
  );
  expect(textOf(await buildBookPdf({ book, paper: 'a4', printedAt: PRINTED_AT }))).toContain(
    'The picture is not here.',
  );
});

it('prints stair, calibration, films, priming and the stop rules, and that no repair was offered', () => {
  for (const words of [
    'Pressure stair, at 600 rpm',
    'Fair share of the loss, psi',
    'No repair was offered at a price',
    'Calibrated by 1 gauge reading',
    'Film temperatures and least films',
    'Priming before the first start',
    'never with grease',
    'Stop rules, read before the key is turned',
    // Nothing was measured, so the engine is taken as new, and the gauge says that it is not.
    'LOWER than expected',
  ])
    says(words);
});

import { expect, it } from 'vitest';
import { csvFromSheet } from './csv-from-sheet.ts';
import { sheetFromCsv } from './csv-to-sheet.ts';
import { outlineSheet } from './outline.ts';
import { readSheet } from './read-sheet.ts';
import { sheetWithList } from './sheet-with-list.ts';

const good = <T>(outcome: { ok: true; value: T } | { ok: false; issues: readonly unknown[] }): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
};
const outline = good(outlineSheet({ layout: 'inline', cylinders: 4, mains: 3, title: 'Mine' }));
const written = (csv: string, into = outline) =>
  good(sheetWithList(into, good(sheetFromCsv(csv, { title: 'Mine' }))));

it('a list written out and taken back unchanged leaves the sheet as it was', () => {
  const { sheet, cautions } = written(csvFromSheet(outline));
  expect(sheet).toEqual(outline);
  expect(cautions).toEqual([]);
});

it('a limit filled in is taken; covers and relations stay; the reason for no limits goes', () => {
  const { sheet, cautions } = written(
    'id,name,kind,unit,places,position,new upper,document,page,trust\nhead.flatness,Flatness of the head,length,in,,head,.004,Own notes,12,remembered\n',
  );
  const flatness = sheet.characteristics.find(({ id }) => id === 'head.flatness');
  expect(flatness).toMatchObject({
    limits: { new: { upper: '.004 in' } },
    source: { document: 'own-notes', page: '12', trust: 'remembered' },
    non_negative: true,
  });
  expect(flatness).not.toHaveProperty('no_limits');
  expect(sheet.covers).toEqual(outline.covers);
  expect(sheet.characteristics).toHaveLength(outline.characteristics.length);
  const taper = (id: string) => sheet.characteristics.find((one) => one.id === id)?.relation;
  expect(taper('bore.taper')).toEqual(
    outline.characteristics.find(({ id }) => id === 'bore.taper')?.relation,
  );
  expect(cautions.map(({ code }) => code)).toContain('csv/rows-kept');
});

it('a row of its own is added', () => {
  const { sheet } = written('name,unit,wear upper,document,trust\nTappet clearance,thou,3,Notes,assumed\n');
  expect(sheet.characteristics.at(-1)).toMatchObject({ id: 'tappet-clearance', unit: 'thou' });
});

it('a limit set whose numbers did not change keeps the source of its own, a changed one takes the row’s', () => {
  const before = good(
    readSheet({
      format: 'fettle-spec-sheet',
      version: 1,
      title: 'Mine',
      documents: { manual: { title: 'Manual', edition: '2nd' }, bulletin: { title: 'Bulletin' } },
      characteristics: [
        {
          id: 'float',
          name: 'Float',
          kind: 'length',
          unit: 'thou',
          source: { document: 'manual', trust: 'printed' },
          limits: {
            new: { upper: '8 thou', source: { document: 'bulletin', page: '7', trust: 'printed' } },
            wear: { upper: '12 thou', source: { document: 'bulletin', page: '7', trust: 'printed' } },
          },
        },
      ],
    }),
  );
  const { sheet } = written(csvFromSheet(before).replace('12 thou', '11 thou'), before);
  expect(sheet.characteristics[0]?.limits?.new?.source).toMatchObject({ document: 'bulletin' });
  expect(sheet.characteristics[0]?.limits?.wear).toEqual({ upper: '11 thou' });
  expect(sheet.documents.manual).toEqual({ title: 'Manual', edition: '2nd' });
});

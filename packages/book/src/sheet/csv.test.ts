import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvFromSheet, leftOutOfCsv } from './csv-from-sheet.ts';
import { sheetFromCsv } from './csv-to-sheet.ts';
import { outlineSheet } from './outline.ts';
import { readSheet } from './read-sheet.ts';
import type { SpecSheet } from './sheet.ts';

const about = { title: 'Mine' };
const readAll = (text: string) => {
  const read = sheetFromCsv(text, about);
  if (!read.ok) throw new Error(JSON.stringify(read.issues, null, 1));
  return read.value;
};
const issuesOf = (text: string) => {
  const read = sheetFromCsv(text, about);
  return read.ok ? [] : read.issues;
};

const minimal = 'name,unit,new lower,new upper,wear upper\nMain clearance,thou,1.5,3.0,4.0\n';

describe('what somebody types into a spreadsheet', () => {
  it('a name, a unit and limits are enough; what was taken for granted is said', () => {
    const { sheet, cautions } = readAll(minimal);
    expect(sheet.characteristics).toMatchObject([
      {
        id: 'main-clearance',
        kind: 'length',
        unit: 'thou',
        limits: { new: { lower: '1.5 thou', upper: '3.0 thou' }, wear: { upper: '4.0 thou' } },
        source: { trust: 'assumed' },
      },
    ]);
    expect(cautions.map(({ code }) => code)).toEqual(['csv/no-trust', 'csv/no-document']);
    expect(cautions[0]?.message).toContain('Line 2');
  });

  it('a cell that says its own unit keeps it, whatever the column says', () => {
    const { sheet } = readAll('name,unit,new upper\nClearance,thou,.0762 mm\n');
    expect(sheet.characteristics[0]?.limits?.new?.upper).toBe('.0762 mm');
  });

  it('without a unit column the unit of the first limit tells the kind', () => {
    const { sheet } = readAll('name,new lower\nSpring load,54 lbf\n');
    expect(sheet.characteristics[0]?.kind).toBe('force');
  });

  it.each([
    [
      'semicolons, as many spreadsheets write where the comma is the decimal sign',
      minimal.replaceAll(',', ';'),
    ],
    ['tabs', minimal.replaceAll(',', '\t')],
    ['a first line that names the sign', `sep=;\n${minimal.replaceAll(',', ';')}`],
    ['a byte-order mark and line ends of another system', `\ufeff${minimal.replaceAll('\n', '\r\n')}`],
    ['old line ends', minimal.replaceAll('\n', '\r')],
    ['every cell in quotes', minimal.replace(/[^,\n]+/g, '"$&"')],
    ['empty rows and columns', `,,,,\n\n${minimal}\n,,,,,,,\n`],
    [
      'headings in capitals and underscores',
      minimal.replace('name', 'NAME').replace('new lower', 'New_Lower'),
    ],
  ])('is read with %s', (_, text) => {
    expect(readAll(text).sheet).toEqual(readAll(minimal).sheet);
  });

  it('places come with their values once, in any row', () => {
    const { sheet } = readAll(
      'name,unit,places\nBore,in,cylinder(1 2 3 4) height(top mid bottom)\nLast bore,in,cylinder(3 4)\nGap,in,cylinder\n',
    );
    expect(sheet.axes).toEqual({ cylinder: ['1', '2', '3', '4'], height: ['top', 'mid', 'bottom'] });
    expect(sheet.characteristics[1]?.only).toEqual({ cylinder: ['3', '4'] });
    expect(sheet.characteristics[2]?.only).toBeUndefined();
  });

  it('what is looked at says in the column target what is wanted', () => {
    const { sheet } = readAll('name,kind,target\nCap arrows,seen,all point forwards\n');
    expect(sheet.characteristics[0]).toMatchObject({ kind: 'seen', wanted: 'all point forwards' });
  });

  it('a column that is not known is left out and said', () => {
    const { cautions } = readAll('name,unit,colour\nBore,in,red\n');
    expect(cautions).toMatchObject([{ code: 'csv/unknown-column' }]);
    expect(cautions[0]?.message).toContain('"colour"');
  });

  it('a line break within quotes does not shift the lines that are told', () => {
    expect(issuesOf('name,unit,note\nBore,in,"two\nlines"\nGap,in,\nGap,in,\n')).toMatchObject([
      { code: 'csv/duplicate-id', at: 'line 5, column id' },
    ]);
  });
});

describe('what is wrong is told by line and column', () => {
  it.each<[string, string, string, string, string?]>([
    ['an empty file', '', 'csv/empty', 'file'],
    ['no heading', 'Main clearance,thou,1.5\nRod clearance,thou,1\n', 'csv/heading', 'line 1'],
    ['a column twice', 'name,unit,unit\nA,in,in\n', 'csv/column-twice', 'line 1, column unit'],
    [
      'a decimal comma',
      'name;unit;new upper\nA;mm;0,05\n',
      'number/decimal-comma',
      'line 2, column new upper',
      '0,05',
    ],
    [
      'a decimal comma that breaks the row',
      'name,unit,new upper\nA,mm,0,05\n',
      'csv/too-many-cells',
      'line 2',
      '05',
    ],
    [
      'a limit without any unit',
      'name,kind,new upper\nA,length,3\n',
      'csv/no-unit',
      'line 2, column new upper',
      '3',
    ],
    ['neither unit nor kind', 'name,new upper\nA,3\n', 'csv/no-kind', 'line 2, column unit'],
    ['a unit nobody knows', 'name,unit\nA,furlong\n', 'csv/unknown-unit', 'line 2, column unit', 'furlong'],
    ['an unknown kind', 'name,kind\nA,lenght\n', 'csv/unknown-kind', 'line 2, column kind', 'lenght'],
    [
      'a unit of another kind',
      'name,kind,unit\nA,length,psi\n',
      'sheet/unit-and-kind',
      'line 2, column unit',
      'psi',
    ],
    [
      'a limit in words',
      'name,unit,new upper\nA,in,three\n',
      'number/unreadable',
      'line 2, column new upper',
    ],
    [
      'limits exchanged',
      'name,unit,new lower,new upper\nB,in,1,2\nA,in,3,2\n',
      'sheet/limits-crossed',
      'line 3, column new lower',
    ],
    [
      'a wear limit tighter than new',
      'name,unit,new upper,wear upper\nA,in,3,2\n',
      'sheet/wear-inside-new',
      'line 2, column wear upper',
      '2 in',
    ],
    ['a formula', 'name,unit,new upper\nA,in,=B2*2\n', 'csv/formula', 'line 2, column new upper', '=B2*2'],
    ['a name twice', 'name,unit\nA,in\nA,in\n', 'csv/duplicate-id', 'line 3, column id', 'a'],
    ['a name without letters', 'name,unit\n???,in\n', 'csv/no-id', 'line 2, column id'],
    ['an id with spaces', 'id,name,unit\nA b,A,in\n', 'sheet/malformed', 'line 2, column id', '"A b"'],
    ['no name', 'name,unit\n,in\n', 'csv/no-name', 'line 2, column name'],
    ['a trust that is none', 'name,unit,trust\nA,in,sure\n', 'csv/trust', 'line 2, column trust', 'sure'],
    [
      'an axis without values',
      'name,unit,places\nA,in,rod\n',
      'csv/axis-without-values',
      'line 2, column places',
      'rod',
    ],
    ['brackets torn', 'name,unit,places\nA,in,rod(1 2\n', 'csv/places', 'line 2, column places'],
    [
      'an axis nobody can type',
      'name,unit,places\nA,in,9(1 2)\n',
      'sheet/axis-name',
      'line 2, column places',
    ],
    [
      'a position by an axis it does not have',
      'name,unit,position\nA,in,rod-{rod}\n',
      'sheet/position-axis',
      'line 2, column position',
    ],
    ['a quote never closed', 'name,unit\n"A,in\n', 'csv/quote-open', 'line 2'],
    ['a cell that goes on after its quote', 'name,unit\n"A"b,in\n', 'csv/quote-inside', 'line 2'],
    ['another encoding', 'name,unit\nA\ufffd,in\n', 'csv/encoding', 'file'],
  ])('%s', (_, text, code, at, got) => {
    const issue = issuesOf(text).find((one) => one.code === code && one.at === at);
    expect(issue, JSON.stringify(issuesOf(text), null, 1)).toBeDefined();
    if (got !== undefined) expect(issue?.got).toBe(got);
    expect(issue?.wanted).not.toBe('');
    expect(issue?.message).toMatch(/\.$/);
    expect(issue?.message).not.toContain('/characteristics');
  });

  it('every line at fault is told at once', () => {
    expect(issuesOf('name,unit,new upper\nA,in,x\nB,in,y\n').map(({ at }) => at)).toEqual([
      'line 2, column new upper',
      'line 3, column new upper',
    ]);
  });
});

/** Sheets that hold nothing but what a plain list can. */
const plainSheet: fc.Arbitrary<SpecSheet> = (() => {
  const words = fc
    .array(
      fc.constantFrom(
        'bore',
        'μ',
        'a,b',
        'x;y',
        '"q"',
        'two\nlines',
        '=1+1',
        "'tis",
        '-note',
        '+5',
        '@me',
        'é',
      ),
      {
        minLength: 1,
        maxLength: 4,
      },
    )
    .map((parts) => parts.join(' '));
  const lengths = fc.constantFrom('.0015 in', '1 1/2 in', '7 thou', '0.05 mm', '-3 um', '2″');
  const ordered = fc.constantFrom(['1 thou', '2 thou'], ['-.001 in', '0.1 mm'], ['1/64 in', '5 mm']);
  const axes = { rod: ['1', '2', '3', '4'], end: ['front', 'rear'] };
  const optional = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });
  const characteristic = fc
    .record({
      name: words,
      line: optional(fc.constantFrom('1', '12a')),
      group: optional(words),
      unit: optional(fc.constantFrom('in', 'mm', 'thou')),
      measurand: fc.constantFrom('direct', 'per side', 'total'),
      places: fc.constantFrom<string[]>([], ['rod'], ['rod', 'end'], ['end']),
      few: fc.boolean(),
      fresh: optional(ordered),
      target: fc.boolean(),
      wear: optional(lengths),
      page: optional(fc.constantFrom('12', 'B-7', '=3')),
      document: fc.constantFrom('shop-manual', 'odd'),
      trust: fc.constantFrom('printed' as const, 'remembered' as const, 'calculated' as const),
      with: optional(fc.constantFrom('micrometer', 'feeler')),
      note: optional(words),
      seen: fc.boolean(),
    })
    .map((c) => ({
      name: c.name,
      line: c.line,
      group: c.group,
      measurand: c.measurand,
      places: c.places,
      with: c.with,
      note: c.note,
      position: c.places.includes('rod') ? 'rod-{rod}' : 'crank',
      ...(c.few && c.places.includes('rod') ? { only: { rod: ['2', '4'] } } : {}),
      source: { document: c.document, page: c.page, trust: c.trust },
      ...(c.seen
        ? { kind: 'seen' as const, wanted: c.name }
        : {
            kind: 'length' as const,
            unit: c.unit,
            limits: c.fresh
              ? { new: { lower: c.fresh[0], upper: c.fresh[1], target: c.target ? c.fresh[1] : undefined } }
              : c.wear
                ? { wear: { lower: c.wear } }
                : undefined,
          }),
    }));
  return fc.array(characteristic, { maxLength: 5 }).map((several) => {
    const whole = { id: 'whole', name: 'Whole', kind: 'length', unit: 'in', places: ['rod', 'end'] };
    const document = { 'shop-manual': { title: 'Shop manual' }, odd: { title: 'Another, 2nd' } };
    const read = readSheet(
      JSON.parse(
        JSON.stringify({
          format: 'fettle-spec-sheet',
          version: 1,
          title: 'Mine',
          documents: document,
          axes,
          positions: [
            { id: 'crank', name: 'crank' },
            { id: 'rod-{rod}', name: 'rod-{rod}', places: ['rod'] },
          ],
          // Somewhere an axis must be whole, or its values cannot all be known.
          characteristics: [...several.map((c, i) => ({ ...c, id: `c.${i}` })), whole],
        }),
      ),
    );
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    return read.value;
  });
})();

describe('there and back', () => {
  it('a sheet that a plain list can hold comes back the same', () => {
    fc.assert(
      fc.property(plainSheet, (sheet) => {
        const back = readAll(csvFromSheet(sheet)).sheet;
        expect(back.characteristics).toEqual(sheet.characteristics);
        expect(new Map(Object.entries(back.axes))).toEqual(new Map(Object.entries(sheet.axes)));
        for (const [id, document] of Object.entries(back.documents))
          expect(sheet.documents[id]).toEqual(document);
        expect(leftOutOfCsv(sheet)).toEqual([]);
      }),
    );
  });

  it('saved with semicolons, tabs or other line ends by a spreadsheet, it comes back the same as well', () => {
    fc.assert(
      fc.property(plainSheet, (sheet) => {
        const text = csvFromSheet(sheet);
        expect(readAll(`\ufeff${text.replaceAll('\n', '\r\n')}`).sheet).toEqual(readAll(text).sheet);
      }),
      { numRuns: 30 },
    );
  });

  it('what the list cannot hold is named, and the rest survives', () => {
    const outline = outlineSheet({ layout: 'inline', cylinders: 4, mains: 3, title: 'Mine' });
    if (!outline.ok) throw new Error('the outline is sound');
    const left = leftOutOfCsv(outline.value).join(' ');
    for (const what of ['relation', 'no_limits', 'covers (5)', 'caution (1)']) expect(left).toContain(what);
    const back = readAll(csvFromSheet(outline.value)).sheet;
    expect(back.characteristics.map(({ id, places }) => [id, places])).toEqual(
      outline.value.characteristics.map(({ id, places }) => [id, places]),
    );
  });

  it('no text of a sheet becomes a formula in a spreadsheet', () => {
    const { sheet } = readAll("name,unit,note\nA,in,'=cmd()\n");
    expect(sheet.characteristics[0]?.note).toBe('=cmd()');
    expect(csvFromSheet(sheet)).toContain("'=cmd()");
  });
});

it('whatever the file holds, it is read or refused, never thrown at', () => {
  const bits = fc.constantFrom(
    ...'name|unit|kind|places|new lower|wear upper|position|,|;|\t|\n|\r\n|"|""|=|in|thou|1.5|0,5|rod(1 2)|{rod}|(|)|seen|\ufeff|__proto__|constructor(1)|A|3 mm|sep=;'.split(
      '|',
    ),
  );
  const text = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.array(bits).map((parts) => parts.join('')),
    fc.array(bits).map((parts) => `name,unit,places,position,new lower,target\n${parts.join('')}`),
  );
  fc.assert(
    fc.property(text, (file) => {
      const read = sheetFromCsv(file, about);
      if (!read.ok) for (const issue of read.issues) expect(issue.message.length).toBeGreaterThan(10);
    }),
    { numRuns: 1000 },
  );
});

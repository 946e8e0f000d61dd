import { type Caution, failed, type Issue, type Outcome, ok } from '@fettle/core';
import { CSV_COLUMNS, type CsvColumn, headingMeant, slug } from './csv-columns.ts';
import { axesOfCells } from './csv-places.ts';
import { Row } from './csv-row.ts';
import { type CsvRow, csvRows } from './csv-text.ts';
import { axesIn } from './places.ts';
import { readSheet } from './read-sheet.ts';
import { type SpecSheet, TRUSTS } from './sheet.ts';

export interface SheetFromCsv {
  readonly sheet: SpecSheet;
  readonly cautions: readonly Caution[];
}

/** The document of limits for which none is named. */
const NO_DOCUMENT = { id: 'spreadsheet', title: 'Spreadsheet, no document named' };

/** The columns of a heading; unknown ones are left out and said. */
function columnsOf({ line, cells }: CsvRow): {
  columns: (CsvColumn | undefined)[];
  unknown: string[];
  issues: Issue[];
} {
  const columns = cells.map((cell) => CSV_COLUMNS.find((column) => column === headingMeant(cell)));
  const unknown = cells.filter((cell, i) => cell !== '' && columns[i] === undefined);
  const issues: Issue[] = [];
  const at = `line ${line}`;
  if (!columns.includes('name'))
    issues.push({
      code: 'csv/heading',
      at,
      got: cells.join(', ').slice(0, 200),
      wanted: `columns out of ${CSV_COLUMNS.join(', ')}`,
      message: `Line ${line} should be the heading, but has no column "name". Begin the file with a heading, such as name, unit, new lower, new upper, wear upper.`,
    });
  for (const [i, column] of columns.entries())
    if (column !== undefined && columns.indexOf(column) !== i)
      issues.push({
        code: 'csv/column-twice',
        at: `${at}, column ${column}`,
        got: column,
        wanted: 'each column once',
        message: `The heading has the column "${column}" twice. Remove or rename one.`,
      });
  return { columns, unknown, issues };
}

const given = <T extends object>(fields: T): T | undefined =>
  Object.values(fields).some((value) => value !== undefined) ? fields : undefined;

/** Leaves out what is undefined: the schema takes an absent field and an undefined one alike, a hash does not. */
const present = (fields: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

/** Which column a pointer into a characteristic stands for, the longest beginning first. */
const COLUMN_OF: readonly (readonly [string, CsvColumn])[] = [
  ['/limits/new/upper', 'new upper'],
  ['/limits/new/target', 'target'],
  ['/limits/new', 'new lower'],
  ['/limits/wear/upper', 'wear upper'],
  ['/limits/wear', 'wear lower'],
  ['/wanted', 'target'],
  ['/source/document', 'document'],
  ['/source/page', 'page'],
  ['/source/trust', 'trust'],
  ['/only', 'places'],
  ...(
    [
      'id',
      'line',
      'name',
      'group',
      'kind',
      'unit',
      'measurand',
      'position',
      'places',
      'with',
      'note',
    ] as const
  ).map((column) => [`/${column}`, column] as const),
];

/** An issue of the sheet, told by line and column instead of by pointer. */
function inFile(issue: Issue, rows: readonly Row[]): Issue {
  const [, index, rest = ''] = /^\/characteristics\/(\d+)(.*)$/.exec(issue.at) ?? [];
  const row = index === undefined ? undefined : rows[Number(index)];
  const axis = /^\/axes\/([^/]*)/.exec(issue.at)?.[1];
  const first =
    row ??
    (axis === undefined ? undefined : rows.find((r) => r.places().some((named) => named.axis === axis)));
  if (!first)
    return {
      ...issue,
      at: issue.at === '/title' ? 'title' : issue.at.startsWith('/positions') ? 'column position' : issue.at,
    };
  const column = row ? COLUMN_OF.find(([beginning]) => rest.startsWith(beginning))?.[1] : 'places';
  const at = first.at(column);
  return { ...issue, at, message: `L${at.slice(1)}: ${issue.message.replace(`${issue.at}: `, '')}` };
}

const linesText = (lines: readonly number[]): string =>
  `${lines.length === 1 ? 'Line' : 'Lines'} ${lines.slice(0, 12).join(', ')}${lines.length > 12 ? ' and others' : ''}`;

/**
 * A spec sheet from the plain list of characteristics that somebody keeps in a spreadsheet.
 * `name` and a unit are enough: the id is made from the name, the kind from the unit.
 *
 * @param about  the title of the engine, which a list does not hold
 * @returns the sheet, and what was taken for granted; or everything wrong with the file by line and column
 */
export function sheetFromCsv(text: string, about: { readonly title: string }): Outcome<SheetFromCsv> {
  const read = csvRows(text);
  if (!read.ok) return read;
  const [heading, ...body] = read.value;
  if (!heading || body.length === 0)
    return failed({
      code: 'csv/empty',
      at: 'file',
      got: heading ? 'only a heading' : 'an empty file',
      wanted: 'a heading and a row for each characteristic',
      message:
        'The file lists no characteristic. Write a heading, such as name, unit, new lower, new upper, wear upper, and a row for each.',
    });
  const { columns, unknown, issues: headingIssues } = columnsOf(heading);
  if (headingIssues.length > 0) return failed(...headingIssues);

  const rows = body.map((row) => new Row(row, columns));
  const placesOfRows = rows.map((row) => row.places());
  const axes = axesOfCells(placesOfRows);
  const documents = new Map<string, string>();
  const positions = new Map<string, string>();
  const lineOfId = new Map<string, number>();
  const untrusted: number[] = [];
  const undocumented: number[] = [];

  const characteristics = rows.map((row, i) => {
    const name = row.cell('name');
    if (name === undefined)
      row.fault('no-name', 'name', 'nothing', 'a name', 'is no name. Give the characteristic a name.');
    const id = row.cell('id') ?? slug(name ?? '');
    if (id === '' && name !== undefined)
      row.fault(
        'no-id',
        'id',
        'nothing',
        'lower-case letters, digits, dots and hyphens',
        `is no id, and none can be made from the name "${name}". Give one.`,
      );
    const before = lineOfId.get(id);
    if (before !== undefined)
      row.fault(
        'duplicate-id',
        'id',
        id,
        'an id used once',
        `is the id of line ${before} already. Give each row its own id or name.`,
      );
    lineOfId.set(id, before ?? row.line);

    const kind = row.kind();
    const places = placesOfRows[i] ?? [];
    const only: Record<string, readonly string[]> = {};
    for (const { axis, values } of places) {
      const all = axes.get(axis) ?? [];
      if (all.length === 0)
        row.fault(
          'axis-without-values',
          'places',
          axis,
          `${axis}(…) with its values`,
          `has no values in any row. Write them in brackets, such as ${axis}(1 2 3 4).`,
        );
      if (values && values.length < all.length) only[axis] = values;
    }
    const position = row.cell('position')?.toLowerCase().replace(/\s+/g, '-');
    if (position !== undefined && !positions.has(position))
      positions.set(position, row.cell('position') ?? position);

    const limit = (column: CsvColumn): string | undefined =>
      kind === undefined ? undefined : row.limit(column, kind);
    const target = limit('target');
    const limits = given({
      new: given({
        lower: limit('new lower'),
        upper: limit('new upper'),
        target: kind === 'seen' ? undefined : target,
      }),
      wear: given({ lower: limit('wear lower'), upper: limit('wear upper') }),
    });
    const trust = row.trust();
    const document = row.document();
    const page = row.cell('page');
    const hasSource =
      limits !== undefined || document !== undefined || trust !== undefined || page !== undefined;
    if (hasSource && row.cell('trust') === undefined) untrusted.push(row.line);
    if (hasSource && row.cell('document') === undefined) undocumented.push(row.line);
    const from = document ?? NO_DOCUMENT;
    if (hasSource && !documents.has(from.id)) documents.set(from.id, from.title);
    return present({
      id,
      line: row.cell('line'),
      name,
      group: row.cell('group'),
      kind,
      unit: row.cell('unit'),
      measurand: row.cell('measurand'),
      position,
      places: places.map(({ axis }) => axis),
      only: Object.keys(only).length > 0 ? only : undefined,
      limits:
        limits &&
        present({ new: limits.new && present(limits.new), wear: limits.wear && present(limits.wear) }),
      wanted: kind === 'seen' ? target : undefined,
      source: hasSource ? present({ document: from.id, page, trust: trust ?? 'assumed' }) : undefined,
      with: row.cell('with'),
      note: row.cell('note'),
    });
  });
  const rowIssues = rows.flatMap((row) => row.issues);
  if (rowIssues.length > 0) return failed(...rowIssues);

  const sheet = readSheet({
    format: 'fettle-spec-sheet',
    version: 1,
    title: about.title,
    documents: Object.fromEntries([...documents].map(([id, title]) => [id, { title }])),
    axes: Object.fromEntries(axes),
    positions: [...positions].map(([id, name]) => ({
      id,
      name,
      ...(axesIn(id).length > 0 ? { places: axesIn(id) } : {}),
    })),
    characteristics,
  });
  if (!sheet.ok) return failed(...sheet.issues.map((issue) => inFile(issue, rows)));

  const cautions: Caution[] = [];
  const columnsLeft = unknown.map((column) => `"${column}"`).join(', ');
  if (unknown.length > 0)
    cautions.push({
      code: 'csv/unknown-column',
      message: `The columns ${columnsLeft} are not known and were left out. Known are ${CSV_COLUMNS.join(', ')}.`,
    });
  if (untrusted.length > 0)
    cautions.push({
      code: 'csv/no-trust',
      message: `${linesText(untrusted)}: nothing is said of how far the limits are trusted, so they count as assumed. Write ${TRUSTS.join(', ')} into the column trust.`,
    });
  if (undocumented.length > 0)
    cautions.push({
      code: 'csv/no-document',
      message: `${linesText(undocumented)}: no document is named, so the spreadsheet itself stands as the source.`,
    });
  return ok({ sheet: sheet.value, cautions });
}

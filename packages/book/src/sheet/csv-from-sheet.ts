import { csvFormatRows } from 'd3-dsv';
import { CSV_COLUMNS, type CsvColumn, guarded, slug } from './csv-columns.ts';
import { cellOfPlaces } from './csv-places.ts';
import type { Characteristic, SpecSheet } from './sheet.ts';

/** A document by its title, with its id in front where the id cannot be told from the title. */
function documentCell(sheet: SpecSheet, id: string | undefined): string {
  if (id === undefined) return '';
  const title = Object.hasOwn(sheet.documents, id) ? (sheet.documents[id]?.title ?? id) : id;
  return slug(title) === id && !/^[a-z0-9.-]+: /.test(title) ? title : `${id}: ${title}`;
}

function cellsOf(sheet: SpecSheet, c: Characteristic, written: Set<string>): Record<CsvColumn, string> {
  const { new: fresh, wear } = c.limits ?? {};
  const source = c.source ?? fresh?.source ?? wear?.source;
  return {
    id: c.id,
    line: c.line ?? '',
    name: c.name,
    group: c.group ?? '',
    kind: c.kind,
    unit: c.unit ?? '',
    measurand: c.measurand === 'direct' ? '' : c.measurand,
    position: c.position ?? '',
    places: cellOfPlaces(sheet, c, written),
    'new lower': fresh?.lower ?? '',
    'new upper': fresh?.upper ?? '',
    target: c.kind === 'seen' ? (c.wanted ?? '') : (fresh?.target ?? ''),
    'wear lower': wear?.lower ?? '',
    'wear upper': wear?.upper ?? '',
    document: documentCell(sheet, source?.document),
    page: source?.page ?? '',
    trust: source?.trust ?? '',
    with: c.with ?? '',
    note: c.note ?? '',
  };
}

/**
 * The plain list of characteristics for a spreadsheet. For what is looked at, the column target says what is wanted.
 * What a plain list cannot hold is named by `leftOutOfCsv`.
 */
export function csvFromSheet(sheet: SpecSheet): string {
  const written = new Set<string>();
  const rows = sheet.characteristics.map((c) => {
    const cells = cellsOf(sheet, c, written);
    return CSV_COLUMNS.map((column) => guarded(cells[column]));
  });
  return `${csvFormatRows([[...CSV_COLUMNS], ...rows])}\n`;
}

/** Fields of a characteristic that have a column. */
export const LISTED_FIELDS: ReadonlySet<string> = new Set<keyof Characteristic>([
  'id',
  'line',
  'name',
  'group',
  'kind',
  'unit',
  'measurand',
  'position',
  'places',
  'only',
  'limits',
  'wanted',
  'source',
  'with',
  'note',
]);

/** What a sheet holds and its plain list does not, each with how often; empty when the list is all of it. */
export function leftOutOfCsv(sheet: SpecSheet): string[] {
  const counts = new Map<string, number>();
  const count = (what: string, times = 1): void => {
    if (times > 0) counts.set(what, (counts.get(what) ?? 0) + times);
  };
  for (const c of sheet.characteristics) {
    for (const [key, value] of Object.entries(c))
      if (value !== undefined && !LISTED_FIELDS.has(key)) count(key);
    const { new: fresh, wear } = c.limits ?? {};
    count('sources of single limit sets', [fresh, wear].filter((set) => set?.source !== undefined).length);
    if (wear?.target !== undefined) count('targets of worn parts');
  }
  count(
    'editions of documents',
    Object.values(sheet.documents).filter((d) => d.edition !== undefined).length,
  );
  count('fasteners', sheet.fasteners.length);
  count('covers', sheet.covers.length);
  count('oil system', sheet.oil ? 1 : 0);
  count('crank and its loads', sheet.crank ? 1 : 0);
  return [...counts].map(([what, times]) => `${what} (${times})`);
}

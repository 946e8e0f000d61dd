import { readFileSync } from 'node:fs';
import { basename, extname } from 'node:path';
import { readSheet, type SpecSheet, sheetFromCsv } from '@fettle/book';
import { type Caution, failed, type Outcome, ok } from '@fettle/core';

/** A text file, or an issue that says why not. */
function textOf(path: string): Outcome<string> {
  try {
    return ok(readFileSync(path, 'utf8'));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return failed({
      code: 'file/cannot-read',
      at: path,
      got: code ?? String(error),
      wanted: 'a file that can be read',
      message: `${path} cannot be read (${code ?? String(error)}). Check the name and its rights.`,
    });
  }
}

/** A spec sheet from a JSON file or a plain list from a CSV file, by its ending. Nothing is kept when anything is wrong. */
export function sheetFile(
  path: string,
  title: string | undefined,
): Outcome<{ sheet: SpecSheet; cautions: readonly Caution[]; list: boolean }> {
  const text = textOf(path);
  if (!text.ok) return text;
  const ending = extname(path).toLowerCase();
  if (ending === '.csv' || ending === '.tsv') {
    const list = sheetFromCsv(text.value, { title: title ?? basename(path, extname(path)) });
    return list.ok ? ok({ ...list.value, list: true }) : list;
  }
  let json: unknown;
  try {
    json = JSON.parse(text.value);
  } catch (error) {
    return failed({
      code: 'file/not-json',
      at: path,
      got: error instanceof Error ? error.message : String(error),
      wanted: 'a spec sheet as JSON, or a .csv file',
      message: `${path} is no JSON: ${error instanceof Error ? error.message : String(error)}. A spreadsheet is saved as .csv.`,
    });
  }
  const sheet = readSheet(json);
  return sheet.ok ? ok({ sheet: sheet.value, cautions: [], list: false }) : sheet;
}

/** `37 characteristics` */
export const counted = ({ characteristics: { length } }: SpecSheet): string =>
  `${length} characteristic${length === 1 ? '' : 's'}`;

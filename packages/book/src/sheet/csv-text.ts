import { failed, type Issue, type Outcome, ok } from '@fettle/core';
import { dsvFormat } from 'd3-dsv';

/** A line of a spreadsheet that holds anything. */
export interface CsvRow {
  /** Where it begins in the file, counted from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

const DELIMITERS = [',', ';', '\t'] as const;

const NAMES: Readonly<Record<string, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' };

const fault = (code: string, at: string, got: string, wanted: string, message: string): Issue => ({
  code: `csv/${code}`,
  at,
  got,
  wanted,
  message,
});

/** The sign between the cells: the one most frequent in the heading, outside quotes. */
function delimiterOf(heading: string): string {
  const bare = heading.replace(/"[^"]*"/g, '');
  const counted = DELIMITERS.map((sign) => ({ sign, count: bare.split(sign).length }));
  return counted.reduce((best, next) => (next.count > best.count ? next : best)).sign;
}

/**
 * Quotes that cannot be what was meant: one never closed, or a cell that goes on after its closing quote.
 * The parser would read on without a word.
 */
function quoteFault(text: string, delimiter: string): Issue | undefined {
  let line = 1;
  let cellBegins = true;
  for (let i = 0; i < text.length; i++) {
    if (cellBegins && text[i] === '"') {
      const opened = line;
      for (i++; i < text.length && (text[i] !== '"' || text[i + 1] === '"'); i++) {
        if (text[i] === '"') i++;
        if (text[i] === '\n') line++;
      }
      const after = text[i + 1];
      if (i >= text.length)
        return fault(
          'quote-open',
          `line ${opened}`,
          'a quote that is never closed',
          'a closing quote',
          `A quote opened on line ${opened} is never closed. Close it; a quote within a quoted cell is written twice.`,
        );
      if (after !== undefined && after !== delimiter && after !== '\n')
        return fault(
          'quote-inside',
          `line ${line}`,
          text.slice(i + 1, i + 20),
          'the end of the cell after its closing quote',
          `On line ${line} a cell goes on after its closing quote. Write a quote within a quoted cell twice, or put inch marks as "in".`,
        );
      cellBegins = false;
      continue;
    }
    if (text[i] === '\n') line++;
    cellBegins = text[i] === '\n' || text[i] === delimiter;
  }
  return undefined;
}

/**
 * The rows of a file as spreadsheets write it: commas, semicolons or tabs; with or without a byte-order mark;
 * line ends of any system; a first line `sep=;`. Empty rows are skipped, cells are trimmed.
 */
export function csvRows(text: string): Outcome<CsvRow[]> {
  if (text.includes('\u0000') || text.includes('\ufffd'))
    return failed(
      fault(
        'encoding',
        'file',
        'text in another encoding',
        'UTF-8',
        'The file is not in UTF-8, so signs such as μ and ° cannot be read. Save it as "CSV UTF-8".',
      ),
    );
  let plain = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  let firstLine = 1;
  const stated = /^sep=(.)\n/.exec(plain);
  if (stated) {
    plain = plain.slice(stated[0].length);
    firstLine = 2;
  }
  const heading = plain.split('\n').find((line) => line.trim() !== '') ?? '';
  const delimiter = stated?.[1] ?? delimiterOf(heading);
  if (!DELIMITERS.some((sign) => sign === delimiter))
    return failed(
      fault(
        'delimiter',
        'line 1',
        delimiter,
        Object.values(NAMES).join(', '),
        `Cells set apart by "${delimiter}" are not read here. Save the file with ${Object.values(NAMES).join(', ')}.`,
      ),
    );
  const torn = quoteFault(plain, delimiter);
  if (torn) return failed(torn);

  const rows: CsvRow[] = [];
  let line = firstLine;
  for (const raw of dsvFormat(delimiter).parseRows(plain)) {
    const cells = raw.map((cell) => cell.trim());
    if (cells.some((cell) => cell !== '')) rows.push({ line, cells });
    line += 1 + raw.reduce((breaks, cell) => breaks + cell.split('\n').length - 1, 0);
  }
  return ok(rows);
}

import { type Issue, kindsOf, QUANTITY_KINDS, writtenNumber } from '@fettle/core';
import { type CsvColumn, slug, unguarded } from './csv-columns.ts';
import { axesOfCell, type NamedAxis } from './csv-places.ts';
import type { CsvRow } from './csv-text.ts';
import { TRUSTS } from './sheet.ts';

const LIMIT_COLUMNS = ['new lower', 'new upper', 'target', 'wear lower', 'wear upper'] as const;
const KINDS: readonly string[] = [...Object.keys(QUANTITY_KINDS), 'seen'];

/** One row by column, and what is wrong with it. */
export class Row {
  readonly line: number;
  readonly issues: Issue[] = [];
  readonly #cells: ReadonlyMap<CsvColumn, string>;

  constructor({ line, cells }: CsvRow, columns: readonly (CsvColumn | undefined)[]) {
    this.line = line;
    const named = new Map<CsvColumn, string>();
    for (const [i, cell] of cells.entries()) {
      const column = columns[i];
      if (cell !== '' && i >= columns.length)
        this.fault(
          'too-many-cells',
          undefined,
          cell,
          `at most ${columns.length} cells`,
          'has more cells than the heading. Put a cell that holds the separating sign into quotes, and write decimals with a point.',
        );
      if (column === undefined || cell === '') continue;
      if (cell.startsWith('='))
        this.fault(
          'formula',
          column,
          cell,
          'a value',
          'is a formula. Put its value there ("paste values only"), then save again.',
        );
      else named.set(column, unguarded(cell));
    }
    this.#cells = named;
  }

  at(column: CsvColumn | undefined): string {
    return column === undefined ? `line ${this.line}` : `line ${this.line}, column ${column}`;
  }

  cell(column: CsvColumn): string | undefined {
    return this.#cells.get(column);
  }

  fault(code: string, column: CsvColumn | undefined, got: string, wanted: string, words: string): void {
    const at = this.at(column);
    this.issues.push({
      code: `csv/${code}`,
      at,
      got,
      wanted,
      message: `${at[0]?.toUpperCase()}${at.slice(1)}: ${got} ${words}`,
    });
  }

  /** The kind as said, or as the unit tells: its own column, or that of the first limit. */
  kind(): string | undefined {
    const said = this.cell('kind');
    if (said !== undefined) {
      const kind = said.toLowerCase().replace(/[\s_]+/g, '-');
      if (KINDS.includes(kind)) return kind;
      this.fault(
        'unknown-kind',
        'kind',
        said,
        KINDS.join(', '),
        `is no kind of quantity. Write one of ${KINDS.join(', ')}.`,
      );
      return undefined;
    }
    const units = [this.cell('unit'), ...LIMIT_COLUMNS.map((column) => restOf(this.cell(column)))];
    const unit = units.find((text) => text !== undefined && text !== '');
    if (unit === undefined) {
      this.fault(
        'no-kind',
        'unit',
        'nothing',
        'a unit or a kind',
        'tells neither unit nor kind. Give a unit, such as in or mm; for what is only looked at write "seen" into the column kind.',
      );
      return undefined;
    }
    const kinds = kindsOf(unit);
    if (kinds.length === 1) return kinds[0];
    if (kinds.length === 0)
      this.fault(
        'unknown-unit',
        'unit',
        unit,
        'a unit such as in, thou, mm, lbf, psi',
        'is no unit known here. Write it another way, such as in, thou, mm, lbf, psi.',
      );
    else
      this.fault(
        'no-kind',
        'kind',
        unit,
        kinds.join(', '),
        `can be a unit of ${kinds.join(' or ')}. Say which in the column kind.`,
      );
    return undefined;
  }

  /** A limit; a bare number is in the unit that the row states. */
  limit(column: CsvColumn, kind: string): string | undefined {
    const cell = this.cell(column);
    if (cell === undefined || kind === 'ratio' || kind === 'seen') return cell;
    const written = writtenNumber(cell);
    if (!written.ok) {
      for (const issue of written.issues)
        this.issues.push({
          ...issue,
          at: this.at(column),
          message: `Line ${this.line}, column ${column}: ${issue.message}`,
        });
      return undefined;
    }
    if (written.value.rest !== '') return cell;
    const unit = this.cell('unit');
    if (unit !== undefined) return `${cell} ${unit}`;
    this.fault(
      'no-unit',
      column,
      cell,
      'a number with its unit, or a unit in the column unit',
      'has no unit. Write it behind the number or into the column unit.',
    );
    return undefined;
  }

  /** The document of the row: `title`, or `id: title`. */
  document(): { id: string; title: string } | undefined {
    const cell = this.cell('document');
    if (cell === undefined) return undefined;
    const both = /^([a-z0-9][a-z0-9.-]*): (.+)$/s.exec(cell);
    const id = both?.[1] ?? slug(cell);
    if (id === '') {
      this.fault(
        'document',
        'document',
        cell,
        'a title with letters or digits, or "id: title"',
        'makes no name for a document. Write it as "manual: title".',
      );
      return undefined;
    }
    return { id, title: both?.[2] ?? cell };
  }

  trust(): string | undefined {
    const said = this.cell('trust');
    const trust = said?.toLowerCase();
    if (said === undefined || TRUSTS.some((known) => known === trust)) return trust;
    this.fault(
      'trust',
      'trust',
      said,
      TRUSTS.join(', '),
      `does not say how far the limits are trusted. Write one of ${TRUSTS.join(', ')}.`,
    );
    return undefined;
  }

  places(): NamedAxis[] {
    const cell = this.cell('places');
    if (cell === undefined) return [];
    const axes = axesOfCell(cell);
    if (axes) return axes;
    this.fault(
      'places',
      'places',
      cell,
      'axes with their values, such as rod(1 2 3 4) end(front rear)',
      'cannot be read. Write the axes and in brackets their values: rod(1 2 3 4) end(front rear).',
    );
    return [];
  }
}

function restOf(cell: string | undefined): string | undefined {
  if (cell === undefined) return undefined;
  const written = writtenNumber(cell);
  return written.ok ? written.value.rest : undefined;
}

/** A map of pressures as a block of figures. */
export interface PressureTable {
  /** Printed over the columns, such as speeds. */
  readonly columns: readonly string[];
  /** Printed before the rows, such as temperatures. */
  readonly rows: readonly string[];
  /** What stands in the corner. */
  readonly corner: string;
  /** Row by row. */
  readonly cells: readonly (readonly { readonly text: string; readonly mark?: string | undefined }[])[];
}

/** Figures over speed and temperature, right-aligned; a mark of one character stands after its figure. */
export function pressureMapText({ columns, rows, corner, cells }: PressureTable): string[] {
  const first = Math.max(...[corner, ...rows].map((text) => [...text].length));
  const width = (c: number): number =>
    Math.max([...columns[c]!].length, ...cells.map((row) => [...(row[c]?.text ?? '')].length));
  const widths = columns.map((_, c) => width(c));
  const set = (name: string, figures: readonly { text: string; mark?: string | undefined }[]): string =>
    `${name.padEnd(first)} │${figures.map(({ text, mark }, c) => ` ${text.padStart(widths[c]!)}${mark ?? ' '}`).join('')}`.trimEnd();
  return [
    set(
      corner,
      columns.map((text) => ({ text })),
    ),
    `${'─'.repeat(first + 1)}┼${'─'.repeat(widths.reduce((sum, w) => sum + w + 2, 0))}`,
    ...rows.map((name, r) => set(name, cells[r] ?? [])),
  ];
}

/** Rows as aligned columns; the last column is not padded. */
export function table(rows: readonly (readonly string[])[], indent = ''): string[] {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, [...cell].length);
    });
  return rows.map((row) =>
    `${indent}${row.map((cell, i) => cell + ' '.repeat(Math.max(0, widths[i]! - [...cell].length))).join('  ')}`.trimEnd(),
  );
}

/** A heading with a rule under it. */
export const heading = (text: string): string[] => ['', text, '─'.repeat([...text].length)];

/** Words broken at spaces to a width, every line after the first indented. */
export function wrapped(text: string, width: number, indent = ''): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && [...line].length + 1 + [...word].length > width) {
      lines.push(line);
      line = indent + word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}

import type { Block } from '@fettle/book';
import { heading, table, wrapped } from './table.ts';

const WIDTH = 104;

/** A block as lines of the terminal. */
export function blockLines({ title, lines, table: rows, notes }: Block): string[] {
  const broken = (text: string): string[] => wrapped(text, WIDTH, '  ').map((line) => `  ${line}`);
  return [
    ...heading(title),
    ...lines.flatMap(broken),
    ...(rows ? ['', ...table([rows.head, ...rows.rows], '  ')] : []),
    ...(notes.length > 0 ? ['', ...notes.flatMap(broken)] : []),
  ];
}

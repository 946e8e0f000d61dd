import type { Book, Characteristic } from '@fettle/book';

type Characteristics = Book['characteristics'];
const named = new WeakMap<Characteristics, ReadonlyMap<string, string>>();

/**
 * The sheet's line of a characteristic. Where the sheet puts several on one line they are told apart by a letter in
 * their order, so that no two things on paper go by the same name: `S31a`, `S31b`.
 */
export function lineName({ characteristics }: Book, { id }: Characteristic): string {
  let lines = named.get(characteristics);
  if (!lines) {
    lines = linesOf(characteristics);
    named.set(characteristics, lines);
  }
  return lines.get(id) ?? '';
}

function linesOf(characteristics: Characteristics): ReadonlyMap<string, string> {
  const onLine = new Map<string, string[]>();
  for (const { id, line } of characteristics.values())
    if (line !== undefined && line !== '') onLine.set(line, [...(onLine.get(line) ?? []), id]);
  return new Map(
    [...onLine].flatMap(([line, ids]) =>
      ids.map((id, i): [string, string] => [id, ids.length === 1 ? line : `${line}${letter(i)}`]),
    ),
  );
}

/** a to z, then aa: no sheet has seen more on a line. */
const letter = (i: number): string =>
  (i >= 26 ? letter(Math.floor(i / 26) - 1) : '') + String.fromCharCode(97 + (i % 26));

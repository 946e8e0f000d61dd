import type { Book, PartState } from '../fold/book.ts';

/** Which state of which part stands in a position: now, as found, or on trial. */
export type Selection = (position: string) => string | undefined;

export const asFittedNow =
  (book: Book): Selection =>
  (position) =>
    book.positions.get(position)?.now?.state;

/** Each position's first part in its first state. */
export const asFound =
  (book: Book): Selection =>
  (position) =>
    book.positions.get(position)?.asFound?.state;

/** As fitted now, but for the parts named: "P4 in bore 3". */
export function onTrial(book: Book, parts: Readonly<Record<string, string>>): Selection {
  const now = asFittedNow(book);
  return (position) => {
    const part = parts[position];
    return part === undefined ? now(position) : book.parts.get(part)?.current.id;
  };
}

/** The state an id names, with its part. */
export function stateNamed(book: Book, id: string): { part: string; state: PartState } | undefined {
  for (const part of book.parts.values())
    for (const state of part.states) if (state.id === id) return { part: part.id, state };
  return undefined;
}

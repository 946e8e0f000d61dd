import type { Book } from '../fold/book.ts';

/** What was put into an opening and taken out of it. */
export interface OpeningCount {
  readonly opening: string;
  readonly name: string;
  readonly by: string;
  readonly blocked: number;
  readonly cleared: number;
  /** Whether the first thing done was to take out what belongs there: plugs, and not rags. */
  readonly takenOutFirst: boolean;
  readonly entries: readonly string[];
}

/** Every opening that anything was put into or taken out of, counted apart for plugs, tape, rags and caps. */
export function openingCounts(book: Book): OpeningCount[] {
  const counts = new Map<string, OpeningCount>();
  for (const { entry, body } of book.openings) {
    const key = `${body.opening} ${body.by}`;
    const sheet = book.sheet?.openings?.find(({ id }) => id === body.opening)?.name;
    const known = counts.get(key) ?? {
      opening: body.opening,
      name: sheet ?? body.opening.replaceAll('-', ' '),
      by: body.by,
      blocked: 0,
      cleared: 0,
      takenOutFirst: entry.kind === 'opening-cleared',
      entries: [],
    };
    const into = entry.kind === 'opening-blocked';
    counts.set(key, {
      ...known,
      ...(body.name !== undefined && sheet === undefined && { name: body.name }),
      blocked: known.blocked + (into ? body.count : 0),
      cleared: known.cleared + (into ? 0 : body.count),
      entries: [...known.entries, entry.id],
    });
  }
  return [...counts.values()];
}

/** Openings whose counts do not match: something is still inside, or missing. */
export const openingsOff = (book: Book): OpeningCount[] =>
  openingCounts(book).filter(({ blocked, cleared }) => blocked !== cleared);

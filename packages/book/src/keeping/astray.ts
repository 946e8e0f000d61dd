import type { Book } from '../fold/book.ts';

/** A fitted part that is not where, with what, or how it was marked to be. */
export interface Astray {
  readonly part: string;
  readonly position: string;
  readonly why:
    | { readonly is: 'away'; readonly home: string }
    | { readonly is: 'turned'; readonly wanted: string; readonly found: string }
    | { readonly is: 'way-unsaid'; readonly wanted: string }
    | { readonly is: 'alone'; readonly partner: string };
  readonly entries: readonly string[];
}

/** Marked parts that stand wrong. A part that is not fitted stands nowhere, and is not wrong. */
export function partsAstray(book: Book): Astray[] {
  const standing = new Map(
    [...book.positions.values()].flatMap(({ id, now }) =>
      now ? [[now.part, { position: id, now }] as const] : [],
    ),
  );
  return [...book.marks.values()].flatMap(({ entry, body }): Astray[] => {
    const fitted = standing.get(body.part);
    if (!fitted) return [];
    const { position, now } = fitted;
    const base = { part: body.part, position, entries: [entry.id, now.entry] };
    const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();
    return [
      ...(body.home !== undefined && body.home !== position
        ? [{ ...base, why: { is: 'away', home: body.home } as const }]
        : []),
      ...(body.way === undefined
        ? []
        : now.way === undefined
          ? [{ ...base, why: { is: 'way-unsaid', wanted: body.way } as const }]
          : same(now.way, body.way)
            ? []
            : [{ ...base, why: { is: 'turned', wanted: body.way, found: now.way } as const }]),
      ...(body.partners ?? [])
        .filter((partner) => !standing.has(partner))
        .map((partner) => ({ ...base, why: { is: 'alone', partner } as const })),
    ];
  });
}

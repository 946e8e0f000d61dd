import type { Book } from '../fold/book.ts';
import { positionsOf, type SheetPosition } from '../sheet/places.ts';

/** A fitted part that is not where, with what, or how it was marked to be. */
export interface Astray {
  readonly part: string;
  readonly position: string;
  readonly why:
    | { readonly is: 'away'; readonly home: string }
    | { readonly is: 'turned'; readonly wanted: string; readonly found: string }
    | { readonly is: 'way-unsaid'; readonly wanted: string }
    | { readonly is: 'alone'; readonly partner: string }
    | {
        readonly is: 'apart';
        readonly partner: string;
        /** Where the partner stands. */
        readonly at: string;
        /** Where it must stand, where a mark names it. */
        readonly wanted?: string;
      };
  readonly entries: readonly string[];
}

/** Marked parts that stand wrong. A part that is not fitted stands nowhere, and is not wrong. */
export function partsAstray(book: Book): Astray[] {
  const standing = new Map(
    [...book.positions.values()].flatMap(({ id, now }) =>
      now ? [[now.part, { position: id, now }] as const] : [],
    ),
  );
  const sheetAt = new Map((book.sheet ? positionsOf(book.sheet) : []).map((one) => [one.id, one]));
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
      ...(body.partners ?? []).flatMap((partner): Astray[] => {
        const at = standing.get(partner)?.position;
        if (at === undefined) return [{ ...base, why: { is: 'alone', partner } }];
        const wanted = body.beside?.[partner] ?? book.marks.get(partner)?.body.home;
        const isBeside =
          wanted === undefined ? areBeside(sheetAt.get(position), sheetAt.get(at)) : wanted === at;
        if (isBeside) return [];
        return [{ ...base, why: { is: 'apart', partner, at, ...(wanted !== undefined && { wanted }) } }];
      }),
    ];
  });
}

/**
 * Whether two positions are beside each other, as far as the sheet tells: the cap of rod 2 goes with rod 2. Positions of
 * one kind (two gears of one pump) and positions without a common axis are taken to be, since nothing speaks against it.
 */
function areBeside(a: SheetPosition | undefined, b: SheetPosition | undefined): boolean {
  if (!a || !b || a.pattern === b.pattern) return true;
  return Object.entries(a.place).every(([axis, value]) => (b.place[axis] ?? value) === value);
}

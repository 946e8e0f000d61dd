import {
  type Buying,
  type BuyingProblem,
  type BuyingWishes,
  cheapestBuying,
  NOTHING,
} from './buying-programme.ts';
import type { Source } from './sources.ts';

export interface Alternative {
  readonly what:
    | { readonly with: string; readonly name: string }
    | { readonly without: string; readonly name: string }
    | { readonly onlyFrom: string }
    | { readonly singles: true };
  /** What the cheapest basket of that kind costs; absent where there is none. */
  readonly price?: number;
}

/** There are as many as supplies, and none of them is what is bought. */
const ALTERNATIVE_BRANCHES = 2000;

/** What the cheapest basket would cost with and without each thing, without kits, and from one supplier alone. */
export function alternativesOf(
  problem: BuyingProblem,
  sources: readonly Source[],
  best: Buying,
): Alternative[] {
  if (best === NOTHING) return [];
  // A search that was broken off says nothing of what it looked for.
  const asked = (what: Alternative['what'], wishes: BuyingWishes): Alternative[] => {
    const { found, finished } = cheapestBuying(problem, wishes, ALTERNATIVE_BRANCHES);
    return finished ? [{ what, ...(found && { price: found.price }) }] : [];
  };
  const each = sources.flatMap(({ line: { id, name } }) =>
    best.counts.has(id)
      ? asked({ without: id, name }, { without: new Set([id]) })
      : asked({ with: id, name }, { atLeastOne: id }),
  );
  const kits = sources.filter(
    ({ line, buyable }) =>
      line.kind === 'supply' && [...buyable.covers.values()].reduce((a, b) => a + b, 0) > 1,
  );
  const singles = kits.some(({ line }) => best.counts.has(line.id))
    ? asked({ singles: true }, { without: new Set(kits.map(({ line }) => line.id)) })
    : [];
  const suppliers = [
    ...new Set(
      sources.flatMap(({ line }) => (line.kind === 'supply' && line.supplier ? [line.supplier] : [])),
    ),
  ];
  const one =
    suppliers.length < 2
      ? []
      : suppliers.flatMap((onlyFrom) => {
          const others = sources.filter(
            ({ line }) => line.kind === 'supply' && line.supplier !== undefined && line.supplier !== onlyFrom,
          );
          return asked({ onlyFrom }, { without: new Set(others.map(({ line }) => line.id)) });
        });
  return [...each, ...singles, ...one];
}

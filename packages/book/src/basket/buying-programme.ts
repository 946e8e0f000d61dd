import { solve } from 'yalps';

/** Something with a price that brings one or more of what is needed. */
export interface Buyable {
  readonly id: string;
  readonly price: number;
  /** What one of it brings, by need. */
  readonly covers: ReadonlyMap<string, number>;
  readonly supplier?: string;
  /** How many can be had. */
  readonly most?: number;
  /** Others it is no use without. */
  readonly needs?: readonly string[];
  /** Others that cannot be taken beside it; it and they are had once at most. */
  readonly excludes?: readonly string[];
}

export interface BuyingProblem {
  /** How many of each. */
  readonly needs: ReadonlyMap<string, number>;
  readonly buyables: readonly Buyable[];
  /** Charged once for whatever is bought there, by supplier. */
  readonly carriage: ReadonlyMap<string, number>;
}

export interface Buying {
  readonly counts: ReadonlyMap<string, number>;
  readonly goods: number;
  readonly carriage: number;
  readonly price: number;
}

/** What is asked of a buying beside covering the needs. */
export interface BuyingWishes {
  readonly atLeastOne?: string;
  readonly without?: ReadonlySet<string>;
  /** Only a buying that costs less than this. */
  readonly below?: number;
  /** Halves and thirds of a kit: no buying, but no buying can cost less. */
  readonly inParts?: boolean;
}

export interface Search {
  readonly found?: Buying;
  /** False where it was broken off: what was found may not be the cheapest, and none may yet exist. */
  readonly finished: boolean;
}

/** Branches gone through before a search is broken off; a page must not stand still for it. */
const MOST_BRANCHES = 20_000;

/** Two sums closer than this are one [money]. */
const SAME_SUM = 1e-6;
const PRICE = 'price';

interface Row {
  readonly min?: number;
  readonly max?: number;
}
type Column = Map<string, number>;

/**
 * The cheapest buying that covers every need, by integer programming:
 *
 *     min Σ pᵢ xᵢ + Σ cₛ yₛ   with  Σ aᵢₙ xᵢ ≥ bₙ,  xᵢ ≤ mᵢ yₛ₍ᵢ₎,  x whole, y 0 or 1
 *
 * p price, a what one brings, b the need, c carriage of a supplier, y whether anything is bought there, m the most that
 * could be of use. Branch and bound runs with no tolerance, so what a finished search found is proven.
 */
export function cheapestBuying(
  problem: BuyingProblem,
  wishes: BuyingWishes = {},
  most = MOST_BRANCHES,
): Search {
  const { rows, columns } = programme(problem, wishes);
  const { status, variables } = solve(
    {
      direction: 'minimize',
      objective: PRICE,
      constraints: rows,
      variables: columns,
      integers: wishes.inParts !== true,
    },
    { tolerance: 0, timeout: Number.POSITIVE_INFINITY, maxIterations: most },
  );
  const finished = status !== 'timedout';
  if (status === 'infeasible' || variables.length === 0) {
    // Needing nothing is met by nothing.
    return status === 'optimal' ? { found: NOTHING, finished } : { finished };
  }
  const amounts = new Map(variables);
  const counts = new Map<string, number>();
  for (const { id } of problem.buyables) {
    const amount = amounts.get(`x ${id}`) ?? 0;
    const count = wishes.inParts ? amount : Math.round(amount);
    if (count > 0) counts.set(id, count);
  }
  const goods = problem.buyables.reduce((sum, { id, price }) => sum + price * (counts.get(id) ?? 0), 0);
  const carriage = wishes.inParts
    ? [...problem.carriage].reduce((sum, [name, each]) => sum + each * (amounts.get(`y ${name}`) ?? 0), 0)
    : carriageOf(problem, counts);
  return { found: { counts, goods, carriage, price: goods + carriage }, finished };
}

export const NOTHING: Buying = { counts: new Map(), goods: 0, carriage: 0, price: 0 };

/** Carriage of every supplier from whom anything is taken. */
function carriageOf({ buyables, carriage }: BuyingProblem, counts: ReadonlyMap<string, number>): number {
  const from = new Set(
    buyables.flatMap(({ id, supplier }) => (counts.has(id) && supplier ? [supplier] : [])),
  );
  return [...from].reduce((sum, supplier) => sum + (carriage.get(supplier) ?? 0), 0);
}

/** The most of one thing that could be of any use. */
function mostUseful({ covers, most }: Buyable, needs: ReadonlyMap<string, number>): number {
  const useful = Math.max(
    1,
    ...[...covers].map(([need, count]) => Math.ceil((needs.get(need) ?? 0) / count)),
  );
  return Math.min(most ?? useful, useful);
}

function programme({ needs, buyables, carriage }: BuyingProblem, wishes: BuyingWishes) {
  const rows = new Map<string, Row>([...needs].map(([need, count]) => [`need ${need}`, { min: count }]));
  const columns = new Map<string, Column>();
  const bounded = (name: string, column: Column, row: Row): void => {
    rows.set(`bound ${name}`, row);
    column.set(`bound ${name}`, 1);
  };
  for (const one of buyables) {
    if (wishes.without?.has(one.id)) continue;
    const column: Column = new Map([[PRICE, one.price]]);
    for (const [need, count] of one.covers) if (needs.has(need)) column.set(`need ${need}`, count);
    const atLeast = wishes.atLeastOne === one.id ? { min: 1 } : {};
    bounded(`x ${one.id}`, column, { ...atLeast, max: mostUseful(one, needs) });
    columns.set(`x ${one.id}`, column);
  }
  for (const one of buyables) {
    const column = columns.get(`x ${one.id}`);
    if (!column) continue;
    for (const other of one.needs ?? []) {
      // What is no use alone is taken no more often than what it needs.
      rows.set(`after ${one.id} ${other}`, { max: 0 });
      column.set(`after ${one.id} ${other}`, 1);
      columns.get(`x ${other}`)?.set(`after ${one.id} ${other}`, -mostUseful(one, needs));
    }
    for (const other of one.excludes ?? []) {
      if (!columns.has(`x ${other}`)) continue;
      rows.set(`beside ${one.id} ${other}`, { max: 1 });
      column.set(`beside ${one.id} ${other}`, 1);
      columns.get(`x ${other}`)?.set(`beside ${one.id} ${other}`, 1);
    }
  }
  for (const [supplier, charge] of carriage) {
    if (charge === 0) continue;
    const opened: Column = new Map([[PRICE, charge]]);
    for (const one of buyables) {
      const column = columns.get(`x ${one.id}`);
      if (one.supplier !== supplier || !column) continue;
      rows.set(`from ${one.id}`, { max: 0 });
      column.set(`from ${one.id}`, 1);
      opened.set(`from ${one.id}`, -mostUseful(one, needs));
    }
    bounded(`y ${supplier}`, opened, { max: 1 });
    columns.set(`y ${supplier}`, opened);
  }
  if (wishes.below !== undefined) rows.set(PRICE, { max: wishes.below - SAME_SUM });
  return { rows, columns };
}

/** Needs that all that can be had together does not cover, with how many of each stay open. */
export function shortfall({ needs, buyables }: BuyingProblem): ReadonlyMap<string, number> {
  const open = new Map<string, number>();
  for (const [need, count] of needs) {
    const brought = buyables.reduce((sum, { covers, most }) => {
      const each = covers.get(need) ?? 0;
      return each === 0 ? sum : sum + each * (most ?? count);
    }, 0);
    if (brought < count) open.set(need, count - brought);
  }
  return open;
}

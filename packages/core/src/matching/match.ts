import { leastSumAssignment } from './assignment.ts';

export interface Matching {
  /** The column of each row. */
  readonly assignment: readonly number[];
  /** Sum of the costs chosen. */
  readonly total: number;
  /** The greatest of them. */
  readonly worst: number;
}

export type MatchingObjective = 'sum' | 'worst';

/**
 * Pairs every row with a column of its own at least cost.
 *
 * By `sum` the total is least; by `worst` the costliest pair is as cheap as it can be, and among all such pairings
 * the total is least.
 *
 * @param costs      one row for each thing to be placed, one column for each place; no more rows than columns
 * @param forbidden  pairs that must not be, counted from 0
 * @returns          undefined where the forbidden pairs leave no pairing
 * @source           jonker-volgenant
 */
export function matching(
  costs: readonly (readonly number[])[],
  objective: MatchingObjective = 'sum',
  forbidden: readonly (readonly [number, number])[] = [],
): Matching | undefined {
  const rows = costs.length;
  const columns = costs[0]?.length ?? 0;
  if (rows === 0) return { assignment: [], total: 0, worst: Number.NEGATIVE_INFINITY };
  if (rows > columns) return undefined;
  const closed = new Uint8Array(rows * columns);
  for (const [i, j] of forbidden) closed[i * columns + j] = 1;
  const bound = objective === 'worst' ? leastWorst(costs, columns, closed) : Number.POSITIVE_INFINITY;
  if (bound === undefined) return undefined;
  if (objective === 'worst')
    costs.forEach((row, i) => {
      row.forEach((cost, j) => {
        if (cost > bound) closed[i * columns + j] = 1;
      });
    });
  return leastSum(costs, columns, closed);
}

/** Closed pairs cost more than any pairing without one; rows that are not there cost nothing anywhere. */
function leastSum(
  costs: readonly (readonly number[])[],
  columns: number,
  closed: Uint8Array,
): Matching | undefined {
  const square = new Float64Array(columns * columns);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let at = 0;
  for (const row of costs)
    for (let j = 0; j < columns; j++, at++) {
      const cost = row[j]!;
      square[at] = cost;
      if (cost < low) low = cost;
      if (cost > high) high = cost;
    }
  const prohibitive = high + (costs.length + 1) * (high - low || Math.abs(high) || 1);
  for (let k = 0; k < at; k++) if (closed[k]) square[k] = prohibitive;
  const assignment = [...leastSumAssignment(columns, square).subarray(0, costs.length)];
  let total = 0;
  let worst = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < assignment.length; i++) {
    const j = assignment[i]!;
    if (closed[i * columns + j]) return undefined;
    const cost = costs[i]![j]!;
    total += cost;
    if (cost > worst) worst = cost;
  }
  return { assignment, total, worst };
}

/** The least bound under which every row still finds a column of its own, by halving the sorted costs. */
function leastWorst(
  costs: readonly (readonly number[])[],
  columns: number,
  closed: Uint8Array,
): number | undefined {
  const open = costs.flatMap((row, i) => row.filter((_, j) => !closed[i * columns + j]));
  const sorted = [...new Set(open)].sort((a, b) => a - b);
  const fits = (bound: number): boolean => {
    const rowOf = new Int32Array(columns).fill(-1);
    const placed = (i: number, seen: Uint8Array): boolean => {
      for (let j = 0; j < columns; j++) {
        if (seen[j] || closed[i * columns + j] || costs[i]![j]! > bound) continue;
        seen[j] = 1;
        if (rowOf[j]! >= 0 && !placed(rowOf[j]!, seen)) continue;
        rowOf[j] = i;
        return true;
      }
      return false;
    };
    return costs.every((_, i) => placed(i, new Uint8Array(columns)));
  };
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (fits(sorted[middle]!)) high = middle;
    else low = middle + 1;
  }
  return sorted[low];
}

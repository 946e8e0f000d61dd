/**
 * Which column each row takes so that the sum of costs is least: shortest augmenting paths after Jonker and
 * Volgenant. Most rows find their column in the reductions that come first; the few left over are augmented one by
 * one. All pairs are allowed here, rows and columns are equally many.
 *
 * @param n     rows, and columns
 * @param cost  row by row, finite
 * @returns     the column of each row
 * @source      jonker-volgenant
 */
export function leastSumAssignment(n: number, cost: Float64Array): Int32Array {
  const columnOf = new Int32Array(n).fill(-1);
  const rowOf = new Int32Array(n).fill(-1);
  const price = new Float64Array(n);
  const free = new Int32Array(n);
  let left = reduced(n, cost, price, columnOf, rowOf, free);
  for (let pass = 0; pass < 2 && left > 0; pass++)
    left = rowsReduced(n, cost, price, columnOf, rowOf, free, left);
  if (left > 0) augmented(n, cost, price, columnOf, rowOf, free, left);
  return columnOf;
}

/** Every column's price is its least cost; a row that is least in some column takes one. @returns rows left free */
function reduced(
  n: number,
  cost: Float64Array,
  price: Float64Array,
  columnOf: Int32Array,
  rowOf: Int32Array,
  free: Int32Array,
): number {
  const least = new Int32Array(n);
  for (let j = 0; j < n; j++) price[j] = cost[j]!;
  for (let i = 1, at = n; i < n; i++)
    for (let j = 0; j < n; j++, at++)
      if (cost[at]! < price[j]!) {
        price[j] = cost[at]!;
        least[j] = i;
      }
  const taken = new Int32Array(n);
  for (let j = n - 1; j >= 0; j--) {
    const i = least[j]!;
    if (++taken[i]! === 1) {
      columnOf[i] = j;
      rowOf[j] = i;
    }
  }
  let left = 0;
  for (let i = 0; i < n; i++) {
    if (taken[i] === 0) free[left++] = i;
    if (taken[i] !== 1) continue;
    // A row sure of its column gives up what it would have to pay more elsewhere.
    const own = columnOf[i]!;
    let next = Number.POSITIVE_INFINITY;
    for (let j = 0, at = i * n; j < n; j++, at++) {
      const h = cost[at]! - price[j]!;
      if (j !== own && h < next) next = h;
    }
    if (n > 1) price[own]! -= next;
  }
  return left;
}

/** Each free row takes its cheapest column and drives the row before out of it. @returns rows left free */
function rowsReduced(
  n: number,
  cost: Float64Array,
  price: Float64Array,
  columnOf: Int32Array,
  rowOf: Int32Array,
  free: Int32Array,
  count: number,
): number {
  let left = 0;
  // In floating point two rows could drive each other out for ever by next to nothing.
  let patience = 4 * n;
  for (let k = 0; k < count; ) {
    const i = free[k++]!;
    let first = Number.POSITIVE_INFINITY;
    let second = Number.POSITIVE_INFINITY;
    let j1 = -1;
    let j2 = -1;
    for (let j = 0, at = i * n; j < n; j++, at++) {
      const h = cost[at]! - price[j]!;
      if (h >= second) continue;
      if (h >= first) {
        second = h;
        j2 = j;
      } else {
        second = first;
        j2 = j1;
        first = h;
        j1 = j;
      }
    }
    let before = rowOf[j1]!;
    if (first < second) price[j1]! -= second - first;
    else if (before >= 0 && j2 >= 0) {
      j1 = j2;
      before = rowOf[j2]!;
    }
    columnOf[i] = j1;
    rowOf[j1] = i;
    if (before < 0) continue;
    columnOf[before] = -1;
    if (first < second && patience-- > 0) free[--k] = before;
    else free[left++] = before;
  }
  return left;
}

/** Every row still free, by the shortest path of exchanges to a free column. */
function augmented(
  n: number,
  cost: Float64Array,
  price: Float64Array,
  columnOf: Int32Array,
  rowOf: Int32Array,
  free: Int32Array,
  count: number,
): void {
  const distance = new Float64Array(n);
  const from = new Int32Array(n);
  // Columns: up to `low` done, from there to `high` as near as the nearest, the rest further.
  const order = new Int32Array(n);
  for (let f = 0; f < count; f++) {
    const start = free[f]!;
    for (let j = 0; j < n; j++) {
      distance[j] = cost[start * n + j]! - price[j]!;
      from[j] = start;
      order[j] = j;
    }
    let low = 0;
    let high = 0;
    let last = 0;
    let least = 0;
    let end = -1;
    while (end < 0) {
      if (low === high) {
        last = low;
        least = distance[order[high++]!]!;
        for (let k = high; k < n; k++) {
          const j = order[k]!;
          const h = distance[j]!;
          if (h > least) continue;
          if (h < least) {
            high = low;
            least = h;
          }
          order[k] = order[high]!;
          order[high++] = j;
        }
        for (let k = low; k < high && end < 0; k++) if (rowOf[order[k]!]! < 0) end = order[k]!;
        if (end >= 0) break;
      }
      const via = order[low++]!;
      const i = rowOf[via]!;
      const row = i * n;
      const base = cost[row + via]! - price[via]! - least;
      for (let k = high; k < n; k++) {
        const j = order[k]!;
        const h = cost[row + j]! - price[j]! - base;
        if (h >= distance[j]!) continue;
        from[j] = i;
        distance[j] = h;
        if (h > least) continue;
        if (rowOf[j]! < 0) {
          end = j;
          break;
        }
        order[k] = order[high]!;
        order[high++] = j;
      }
    }
    for (let k = 0; k < last; k++) {
      const j = order[k]!;
      price[j]! += distance[j]! - least;
    }
    for (let j = end; ; ) {
      const i = from[j]!;
      rowOf[j] = i;
      const next = columnOf[i]!;
      columnOf[i] = j;
      if (i === start) break;
      j = next;
    }
  }
}

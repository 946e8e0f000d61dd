/**
 * The plain way to pair rows with columns at least cost: a shortest augmenting path for every row, nothing reduced
 * beforehand. @returns the column of each row
 */
export function shortestPaths(costs) {
  const n = costs.length;
  const u = new Float64Array(n + 1);
  const v = new Float64Array(n + 1);
  const rowOf = new Int32Array(n + 1);
  const from = new Int32Array(n + 1);
  for (let i = 1; i <= n; i++) {
    rowOf[0] = i;
    let column = 0;
    const least = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
    const done = new Uint8Array(n + 1);
    do {
      done[column] = 1;
      const row = rowOf[column];
      let delta = Number.POSITIVE_INFINITY;
      let next = 0;
      for (let j = 1; j <= n; j++) {
        if (done[j]) continue;
        const h = costs[row - 1][j - 1] - u[row] - v[j];
        if (h < least[j]) {
          least[j] = h;
          from[j] = column;
        }
        if (least[j] < delta) {
          delta = least[j];
          next = j;
        }
      }
      for (let j = 0; j <= n; j++)
        if (done[j]) {
          u[rowOf[j]] += delta;
          v[j] -= delta;
        } else least[j] -= delta;
      column = next;
    } while (rowOf[column] !== 0);
    do {
      const before = from[column];
      rowOf[column] = rowOf[before];
      column = before;
    } while (column !== 0);
  }
  const columnOf = new Int32Array(n);
  for (let j = 1; j <= n; j++) columnOf[rowOf[j] - 1] = j - 1;
  return [...columnOf];
}

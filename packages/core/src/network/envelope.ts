/**
 * Symmetric positive definite matrix kept row by row from its first entry to the diagonal.
 * In the order of a walk outward from the sump, turned round, an engine's circuit fills hardly anything in.
 */
export interface Envelope {
  /** First column kept of each row. */
  readonly first: Int32Array;
  /** Index into `matrix` of column 0 of each row (it may lie before the row's own first entry). */
  readonly rows: Int32Array;
  readonly matrix: Float64Array;
}

/** Room for the matrix of a graph. @param edges pairs of node numbers, −1 for the fixed node */
export function envelopeOf(nodes: number, edges: readonly (readonly [number, number])[]): Envelope {
  const first = Int32Array.from({ length: nodes }, (_, i) => i);
  for (const [a, b] of edges) {
    if (a < 0 || b < 0) continue;
    const row = Math.max(a, b);
    first[row] = Math.min(first[row]!, Math.min(a, b));
  }
  const rows = new Int32Array(nodes);
  let size = 0;
  for (let i = 0; i < nodes; i++) {
    rows[i] = size - first[i]!;
    size += i - first[i]! + 1;
  }
  return { first, rows, matrix: new Float64Array(size) };
}

/** Order of the nodes for a narrow envelope: breadth first from a far node, then turned round (Cuthill and McKee). */
export function narrowOrder(nodes: number, edges: readonly (readonly [number, number])[]): number[] {
  const neighbours: Set<number>[] = Array.from({ length: nodes }, () => new Set());
  for (const [a, b] of edges) {
    if (a < 0 || b < 0 || a === b) continue;
    neighbours[a]!.add(b);
    neighbours[b]!.add(a);
  }
  const order: number[] = [];
  const seen = new Uint8Array(nodes);
  const byDegree = (a: number, b: number) => neighbours[a]!.size - neighbours[b]!.size;
  const roots = Array.from({ length: nodes }, (_, i) => i).sort(byDegree);
  for (const root of roots) {
    if (seen[root]) continue;
    seen[root] = 1;
    const queue = [root];
    for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
      order.push(node);
      for (const next of [...neighbours[node]!].sort(byDegree)) {
        if (seen[next]) continue;
        seen[next] = 1;
        queue.push(next);
      }
    }
  }
  return order.reverse();
}

/**
 * Solves A x = b by Cholesky: factors `matrix` in place and turns `b` into x.
 *
 * @param least  smallest pivot; one under it (a node that only shut valves hold has none) is lifted to it, which
 *               keeps the direction downhill and leaves the rest to the line search
 */
export function solvedInPlace({ first, rows, matrix }: Envelope, b: Float64Array, least: number): void {
  const n = first.length;
  let greatest = 0;
  for (let i = 0; i < n; i++) greatest = Math.max(greatest, matrix[rows[i]! + i]!);
  for (let i = 0; i < n; i++) {
    const row = rows[i]!;
    const start = first[i]!;
    for (let j = start; j < i; j++) {
      const other = rows[j]!;
      let sum = matrix[row + j]!;
      for (let k = Math.max(start, first[j]!); k < j; k++) sum -= matrix[row + k]! * matrix[other + k]!;
      matrix[row + j] = sum / matrix[other + j]!;
    }
    let pivot = matrix[row + i]!;
    for (let k = start; k < i; k++) pivot -= matrix[row + k]! ** 2;
    matrix[row + i] = Math.sqrt(Math.max(pivot, greatest * 1e-15, least));
  }
  for (let i = 0; i < n; i++) {
    let sum = b[i]!;
    for (let k = first[i]!; k < i; k++) sum -= matrix[rows[i]! + k]! * b[k]!;
    b[i] = sum / matrix[rows[i]! + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    const x = b[i]! / matrix[rows[i]! + i]!;
    b[i] = x;
    for (let k = first[i]!; k < i; k++) b[k]! -= matrix[rows[i]! + k]! * x;
  }
}

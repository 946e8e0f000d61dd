/**
 * Symmetric positive definite matrix: its diagonal apart, and of each row what lies from its first entry to there.
 * In the order of a walk outward from the sump, turned round, an engine's circuit fills hardly anything in.
 */
export interface Envelope {
  /** First column kept of each row. */
  readonly first: Int32Array;
  /** Index of column 0 of each row among the entries (it may lie before the row's own first entry). */
  readonly rows: Int32Array;
  /** Number of entries beside the diagonal. */
  readonly size: number;
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
    size += i - first[i]!;
  }
  return { first, rows, size };
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
 * Factors A = L D Lᵀ in place: `diagonal` becomes D, `lower` the part of L under its unit diagonal.
 *
 * @param least  smallest pivot; one under it (a node that only shut valves hold has none) is lifted to it, which
 *               keeps the direction downhill and leaves the rest to the line search
 */
export function envelopeFactored(
  { first, rows }: Envelope,
  diagonal: Float64Array,
  lower: Float64Array,
  least: number,
): void {
  for (let i = 0; i < first.length; i++) {
    const row = rows[i]!;
    const start = first[i]!;
    let pivot = diagonal[i]!;
    // First L D of the row, then L itself, so that each product is needed once.
    for (let j = start; j < i; j++) {
      const other = rows[j]!;
      let sum = lower[row + j]!;
      for (let k = Math.max(start, first[j]!); k < j; k++) sum -= lower[row + k]! * lower[other + k]!;
      lower[row + j] = sum;
    }
    for (let j = start; j < i; j++) {
      const scaled = lower[row + j]!;
      const l = scaled / diagonal[j]!;
      pivot -= scaled * l;
      lower[row + j] = l;
    }
    diagonal[i] = Math.max(pivot, least);
  }
}

/** Turns b into x of A x = b, by the factored matrix. */
export function envelopeSolved(
  { first, rows }: Envelope,
  diagonal: Float64Array,
  lower: Float64Array,
  b: Float64Array,
): void {
  const n = first.length;
  for (let i = 0; i < n; i++) {
    let sum = b[i]!;
    for (let k = first[i]!; k < i; k++) sum -= lower[rows[i]! + k]! * b[k]!;
    b[i] = sum;
  }
  for (let i = 0; i < n; i++) b[i]! /= diagonal[i]!;
  for (let i = n - 1; i >= 0; i--) {
    const x = b[i]!;
    for (let k = first[i]!; k < i; k++) b[k]! -= lower[rows[i]! + k]! * x;
  }
}

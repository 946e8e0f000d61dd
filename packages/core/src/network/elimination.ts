import { type Envelope, envelopeFactored, envelopeOf, envelopeSolved } from './envelope.ts';
import type { Imbalance } from './imbalance.ts';

/**
 * How the equations of a network are solved. Nodes of a tree are each eliminated into the one node they hang from,
 * which fills nothing in; a network with loops goes by its envelope.
 */
export interface Elimination {
  /** Room for the couplings; the slot after the last takes those to the sump. */
  readonly slots: number;
  readonly slotOf: (from: number, to: number) => number;
  /** Factors the matrix in place. @param least  smallest pivot: one under it is lifted to it */
  readonly factor: (matrix: Imbalance, least: number) => void;
  /** Turns a right side into the solution, by the factored matrix. */
  readonly solve: (matrix: Imbalance, b: Float64Array) => void;
}

/** @param edges  pairs of node numbers, −1 for the sump, in an order of the nodes that suits */
export function eliminationOf(nodes: number, edges: readonly (readonly [number, number])[]): Elimination {
  const parents = new Int32Array(nodes).fill(nodes);
  for (const [a, b] of edges) {
    if (a < 0 || b < 0) continue;
    const child = Math.min(a, b);
    const parent = Math.max(a, b);
    if (parents[child] !== nodes && parents[child] !== parent) return loops(nodes, envelopeOf(nodes, edges));
    parents[child] = parent;
  }
  return tree(nodes, parents);
}

function tree(nodes: number, parents: Int32Array): Elimination {
  return {
    slots: nodes,
    slotOf: (from, to) => (from < 0 || to < 0 ? nodes : Math.min(from, to)),
    factor: ({ diagonal, coupling }, least) => {
      // The couplings become the multipliers; a root hangs from the sump by nothing.
      for (let i = 0; i < nodes; i++) {
        let pivot = diagonal[i]!;
        if (pivot < least) {
          pivot = least;
          diagonal[i] = least;
        }
        const c = coupling[i]!;
        const multiplier = c / pivot;
        diagonal[parents[i]!]! -= multiplier * c;
        coupling[i] = multiplier;
      }
    },
    solve: ({ diagonal, coupling }, b) => {
      for (let i = 0; i < nodes; i++) b[parents[i]!]! -= coupling[i]! * b[i]!;
      b[nodes] = 0;
      for (let i = nodes - 1; i >= 0; i--) b[i] = b[i]! / diagonal[i]! - coupling[i]! * b[parents[i]!]!;
    },
  };
}

function loops(nodes: number, envelope: Envelope): Elimination {
  return {
    slots: envelope.size,
    slotOf: (from, to) => {
      if (from < 0 || to < 0) return envelope.size;
      return envelope.rows[Math.max(from, to)]! + Math.min(from, to);
    },
    factor: ({ diagonal, coupling }, least) => envelopeFactored(envelope, diagonal, coupling, least),
    solve: ({ diagonal, coupling }, b) => {
      envelopeSolved(envelope, diagonal, coupling, b);
      b[nodes] = 0;
    },
  };
}

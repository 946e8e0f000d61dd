/** Leaves laid on one another. */
export interface LeafStack {
  /** Thin to thick [m]. */
  readonly leaves: readonly number[];
  readonly thickness: number;
}

/** A sum that differs from another by less than this is the same [m]. */
const SAME = 1e-9;

/**
 * The stacks of owned leaves nearest to a thickness, the nearest first and of equals the one of fewest leaves. Each leaf
 * is owned once. What lies between two of them nobody can tell with these leaves.
 *
 * @param owned  thicknesses [m]
 * @param most   leaves in a stack, 1 to 4: every further one brings its own error and another film of oil
 */
export function leafStacks(owned: readonly number[], wanted: number, most = 3, count = 5): LeafStack[] {
  const leaves = [...new Set(owned)].filter((t) => t > 0).sort((a, b) => a - b);
  const found = new Map<number, number[]>();
  const lay = (from: number, chosen: readonly number[], thickness: number): void => {
    if (chosen.length > 0) {
      const key = Math.round(thickness / SAME);
      const before = found.get(key);
      if (!before || before.length > chosen.length) found.set(key, [...chosen]);
    }
    if (chosen.length === Math.min(most, 4)) return;
    for (let i = from; i < leaves.length; i++) {
      const leaf = leaves[i] as number;
      lay(i + 1, [...chosen, leaf], thickness + leaf);
    }
  };
  lay(0, [], 0);
  return [...found.values()]
    .map((stack) => ({ leaves: stack, thickness: stack.reduce((s, t) => s + t, 0) }))
    .sort((a, b) => {
      const nearer = Math.abs(a.thickness - wanted) - Math.abs(b.thickness - wanted);
      return Math.abs(nearer) > SAME
        ? nearer
        : a.leaves.length - b.leaves.length || a.thickness - b.thickness;
    })
    .slice(0, count);
}

/** What one leaf errs by: in common with all of its set, and by itself [m]. */
export interface LeafDoubt {
  readonly common: number;
  readonly own: number;
}

/**
 * Standard uncertainty of leaves laid on one another: what all of a set have in common adds straight, each leaf's own
 * error by squares, and so does what lies between two of them, a film of oil or a burr.
 *
 *     u_common = Σ u_c    u_own² = Σ u_o² + (n − 1) u_between²
 *
 * @param leaves   one per leaf of the stack
 * @param between  standard uncertainty of what lies between two leaves [m]
 * @source jcgm-100 5.2.2, with fully correlated and with independent inputs
 */
export const stackDoubt = (leaves: readonly LeafDoubt[], between = 0): LeafDoubt => ({
  common: leaves.reduce((sum, { common }) => sum + common, 0),
  own: Math.hypot(...leaves.map(({ own }) => own), Math.sqrt(Math.max(0, leaves.length - 1)) * between),
});

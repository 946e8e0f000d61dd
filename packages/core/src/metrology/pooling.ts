import { chiSquareAbove } from '../uncertainty/gamma.ts';
import { linear, standardUncertainty, term, type Uncertain, uncertain } from '../uncertainty/uncertain.ts';

export interface Pooled {
  readonly value: Uncertain;
  /** Share of each witness, in the order given; they add to 1. */
  readonly weights: readonly number[];
  readonly consistent: boolean;
  readonly chiSquare: number;
  readonly dof: number;
  /** √(χ²/ν): how many times wider the witnesses scatter than they claim; 0 for a single one. */
  readonly birgeRatio: number;
}

/** Witnesses that scatter wider than this happens to honest ones are said to disagree. */
const DOUBT_BELOW = 0.05;

/**
 * Several readings of one thing as one: the generalised least-squares mean, which knows what the witnesses share.
 *
 *     x̄ = 1ᵀV⁻¹x / 1ᵀV⁻¹1,  u² = 1/(1ᵀV⁻¹1),  χ² = (x − x̄)ᵀ V⁻¹ (x − x̄) on n − 1
 *
 * Witnesses that disagree at 5 % keep the larger uncertainty: u is widened by the Birge ratio through one more term,
 * named by `disagreement`, so that it is seen in the budget and not averaged away.
 * A witness whose share would be negative, because another says the same and more, is given none.
 *
 * @source jcgm-100 5.2 for V; birge-1932 for the ratio
 */
export function pooled(
  witnesses: readonly Uncertain[],
  disagreement = 'disagreement between witnesses',
): Pooled {
  const [first] = witnesses;
  if (!first) throw new RangeError('pooling takes at least one witness');
  if (witnesses.length === 1)
    return { value: first, weights: [1], consistent: true, chiSquare: 0, dof: 0, birgeRatio: 0 };

  const V = covariances(witnesses);
  const solved = solverOf(V);
  const weights = shares(V, solved);
  const mean = linear(witnesses.map((of, i) => ({ factor: weights[i] ?? 0, of })));
  const residuals = witnesses.map((w) => w.value - mean.value);
  const dof = witnesses.length - 1;
  const scatter = solved(residuals);
  const chiSquare = Math.max(
    0,
    residuals.reduce((s, r, i) => s + r * (scatter[i] ?? 0), 0),
  );
  const birgeRatio = Math.sqrt(chiSquare / dof);
  const consistent = chiSquareAbove(chiSquare, dof) >= DOUBT_BELOW;
  if (consistent) return { value: mean, weights, consistent, chiSquare, dof, birgeRatio };
  const u = standardUncertainty(mean);
  const added = exactScatter(residuals, u, birgeRatio);
  return {
    value: uncertain(mean.value, ...mean.terms, term(disagreement, added, 'normal', dof)),
    weights,
    consistent,
    chiSquare,
    dof,
    birgeRatio,
  };
}

/** What must be added in squares for u to grow by the ratio; exact witnesses that differ have only their scatter. */
function exactScatter(residuals: readonly number[], u: number, ratio: number): number {
  const scatter = Math.sqrt(
    residuals.reduce((s, r) => s + r * r, 0) / (residuals.length - 1) / residuals.length,
  );
  return u === 0 ? scatter : u * Math.sqrt(Math.max(ratio ** 2 - 1, 0));
}

/** A trace of independence keeps witnesses that share everything, or are exact, solvable with equal shares. */
const TRACE = 1e-12;

function covariances(witnesses: readonly Uncertain[]): number[][] {
  // Source by source: most are one witness's own, and a table of all pairs would ask each of all others.
  const V = witnesses.map(() => witnesses.map(() => 0));
  const bySource = new Map<string, { i: number; u: number }[]>();
  witnesses.forEach(({ terms }, i) => {
    for (const { source, u } of terms) {
      const met = bySource.get(source);
      if (met) met.push({ i, u });
      else bySource.set(source, [{ i, u }]);
    }
  });
  for (const all of bySource.values())
    for (const a of all) {
      const row = V[a.i]!;
      for (const b of all) row[b.i] = (row[b.i] ?? 0) + a.u * b.u;
    }
  const largest = Math.max(...V.map((row, i) => row[i] ?? 0));
  const size = Math.max(...witnesses.map((w) => Math.abs(w.value)));
  const trace = TRACE * (largest > 0 ? largest : size > 0 ? (size * 1e-6) ** 2 : 1);
  V.forEach((row, i) => {
    row[i] = (row[i] ?? 0) + trace;
  });
  return V;
}

/** @param solved  of all of V, which is asked first */
function shares(V: readonly (readonly number[])[], solved: (right: readonly number[]) => number[]): number[] {
  const among = V.map((_, i) => i);
  for (;;) {
    const ones = among.map(() => 1);
    const raw =
      among.length === V.length
        ? solved(ones)
        : solverOf(among.map((i) => among.map((j) => V[i]?.[j] ?? 0)))(ones);
    const total = raw.reduce((s, w) => s + w, 0);
    const least = raw.reduce((best, w, i) => (w / total < (raw[best] ?? 0) / total ? i : best), 0);
    if (among.length === 1 || (raw[least] ?? 0) / total >= 0) {
      const weights = V.map(() => 0);
      among.forEach((i, k) => {
        weights[i] = (raw[k] ?? 0) / total;
      });
      return weights;
    }
    among.splice(least, 1);
  }
}

/** A⁻¹ as a function, by elimination with row exchange: taken apart once, and asked for as many right sides as wanted. */
function solverOf(matrix: readonly (readonly number[])[]): (right: readonly number[]) => number[] {
  const n = matrix.length;
  const rows = matrix.map((row) => Float64Array.from(row));
  const order = rows.map((_, i) => i);
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[pivot]![c]!)) pivot = r;
    [rows[c], rows[pivot]] = [rows[pivot]!, rows[c]!];
    [order[c], order[pivot]] = [order[pivot]!, order[c]!];
    const top = rows[c]!;
    for (let r = c + 1; r < n; r++) {
      const row = rows[r]!;
      const factor = row[c]! / top[c]!;
      row[c] = factor;
      if (factor !== 0) for (let k = c + 1; k < n; k++) row[k]! -= factor * top[k]!;
    }
  }
  return (right) => {
    const x = order.map((i) => right[i] ?? 0);
    for (let r = 0; r < n; r++) for (let k = 0; k < r; k++) x[r]! -= rows[r]![k]! * x[k]!;
    for (let r = n - 1; r >= 0; r--) {
      for (let k = r + 1; k < n; k++) x[r]! -= rows[r]![k]! * x[k]!;
      x[r]! /= rows[r]![r]!;
    }
    return x;
  };
}

/** |x1 − x2| / √(U1² + U2²) with expanded uncertainties; above 1 the two do not agree. @source iso-13528 */
export const normalisedError = (x1: number, U1: number, x2: number, U2: number): number =>
  Math.abs(x1 - x2) / Math.hypot(U1, U2);

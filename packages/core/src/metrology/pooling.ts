import { chiSquareAbove } from '../uncertainty/gamma.ts';
import {
  covariance,
  linear,
  standardUncertainty,
  term,
  type Uncertain,
  uncertain,
} from '../uncertainty/uncertain.ts';

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
  const weights = shares(V);
  const mean = linear(witnesses.map((of, i) => ({ factor: weights[i] ?? 0, of })));
  const residuals = witnesses.map((w) => w.value - mean.value);
  const dof = witnesses.length - 1;
  const scatter = solved(V, residuals);
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
  const V = witnesses.map((a) => witnesses.map((b) => covariance(a, b)));
  const largest = Math.max(...V.map((row, i) => row[i] ?? 0));
  const size = Math.max(...witnesses.map((w) => Math.abs(w.value)));
  const trace = TRACE * (largest > 0 ? largest : size > 0 ? (size * 1e-6) ** 2 : 1);
  V.forEach((row, i) => {
    row[i] = (row[i] ?? 0) + trace;
  });
  return V;
}

function shares(V: readonly (readonly number[])[]): number[] {
  const among = V.map((_, i) => i);
  for (;;) {
    const part = among.map((i) => among.map((j) => V[i]?.[j] ?? 0));
    const raw = solved(
      part,
      among.map(() => 1),
    );
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

/** A x = b by elimination with row exchange. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  const entry = (i: number, j: number): number => rows[i]?.[j] ?? 0;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(entry(r, c)) > Math.abs(entry(pivot, c))) pivot = r;
    [rows[c], rows[pivot]] = [rows[pivot] ?? [], rows[c] ?? []];
    for (let r = c + 1; r < n; r++) {
      const factor = entry(r, c) / entry(c, c);
      const row = rows[r] ?? [];
      for (let k = c; k <= n; k++) row[k] = entry(r, k) - factor * entry(c, k);
    }
  }
  const x = right.map(() => 0);
  for (let r = n - 1; r >= 0; r--) {
    let sum = entry(r, n);
    for (let k = r + 1; k < n; k++) sum -= entry(r, k) * (x[k] ?? 0);
    x[r] = sum / entry(r, r);
  }
  return x;
}

/** |x1 − x2| / √(U1² + U2²) with expanded uncertainties; above 1 the two do not agree. @source iso-13528 */
export const normalisedError = (x1: number, U1: number, x2: number, U2: number): number =>
  Math.abs(x1 - x2) / Math.hypot(U1, U2);

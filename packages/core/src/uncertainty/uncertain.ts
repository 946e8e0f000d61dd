import { coverageFactor } from './student.ts';

export type Shape = 'normal' | 'rectangular' | 'triangular' | 'arcsine';

/** One cause of doubt. Two quantities with a term of the same source are correlated through it. */
export interface Term {
  readonly source: string;
  /** Signed: sensitivity times standard uncertainty, in the unit of the value. */
  readonly u: number;
  /** Infinity when the standard uncertainty itself is known. */
  readonly dof: number;
  readonly shape: Shape;
}

export interface Uncertain {
  readonly value: number;
  /** One a source. */
  readonly terms: readonly Term[];
}

export const exact = (value: number): Uncertain => ({ value, terms: [] });

export const uncertain = (value: number, ...terms: readonly Term[]): Uncertain => ({
  value,
  terms: joined(terms),
});

/** A term whose standard uncertainty is known, normal unless said otherwise. */
export const term = (
  source: string,
  u: number,
  shape: Shape = 'normal',
  dof = Number.POSITIVE_INFINITY,
): Term => ({
  source,
  u,
  dof,
  shape,
});

/**
 * Terms of one source are one cause: they add with their signs before anything is squared,
 * so a common error cancels in a difference and doubles in a stack.
 */
function joined(terms: readonly Term[]): Term[] {
  const bySource = new Map<string, Term>();
  for (const next of terms) {
    const known = bySource.get(next.source);
    bySource.set(
      next.source,
      known
        ? {
            source: next.source,
            u: known.u + next.u,
            dof: Math.min(known.dof, next.dof),
            shape: known.shape === next.shape ? known.shape : 'normal',
          }
        : next,
    );
  }
  return [...bySource.values()].filter((t) => t.u !== 0);
}

/** Σ factor × quantity + constant, exact for linear relations. */
export function linear(
  parts: readonly { readonly factor: number; readonly of: Uncertain }[],
  constant = 0,
): Uncertain {
  let value = constant;
  const terms: Term[] = [];
  for (const { factor, of } of parts) {
    value += factor * of.value;
    for (const t of of.terms) terms.push({ ...t, u: factor * t.u });
  }
  return { value, terms: joined(terms) };
}

/** u_c, the root of the sum of squares over sources [unit of the value]. @source jcgm-100 5.1.2 */
export const standardUncertainty = (q: Uncertain): number => Math.hypot(...joined(q.terms).map((t) => t.u));

/** What two quantities have in common: Σ u_a u_b over shared sources. @source jcgm-100 F.1.2.3 */
export function covariance(a: Uncertain, b: Uncertain): number {
  const others = new Map(joined(b.terms).map((t) => [t.source, t.u]));
  return joined(a.terms).reduce((sum, t) => sum + t.u * (others.get(t.source) ?? 0), 0);
}

/**
 * ν_eff = u_c⁴ / Σ (u_i⁴ / ν_i), not rounded; infinite when every term is known or none is left.
 *
 * @source jcgm-100 G.4.1, the Welch-Satterthwaite formula
 */
export function effectiveDof(q: Uncertain): number {
  if (q.terms.every(({ dof }) => dof === Number.POSITIVE_INFINITY)) return Number.POSITIVE_INFINITY;
  const total = standardUncertainty(q);
  if (total === 0) return Number.POSITIVE_INFINITY;
  const sum = joined(q.terms).reduce((s, t) => s + (t.u / total) ** 4 / t.dof, 0);
  return 1 / sum;
}

export interface Expanded {
  readonly u: number;
  readonly dof: number;
  /** Coverage factor. */
  readonly k: number;
  /** U = k u. */
  readonly U: number;
}

/** U at a two-sided level, with what it was made from. @source jcgm-100 G.6.4 */
export function expanded(q: Uncertain, level = 0.95): Expanded {
  const u = standardUncertainty(q);
  const dof = effectiveDof(q);
  const k = coverageFactor(level, dof);
  return { u, dof, k, U: k * u };
}

/** Steps tried when the function has no value one standard uncertainty away. */
const SMALLER = [1, 0.1, 0.01, 0.001];

/**
 * First-order propagation through any function, its slopes taken by central differences one standard
 * uncertainty wide: an honest slope over the range that matters, where a derivative at a point may be zero.
 *
 * A function that has no finite value at the inputs or beside them is the caller's to keep away from.
 * @source jcgm-100 5.1.3, note 2
 */
export function propagated(f: (x: readonly number[]) => number, inputs: readonly Uncertain[]): Uncertain {
  const at = inputs.map((q) => q.value);
  const value = f(at);
  if (!Number.isFinite(value)) throw new RangeError('the function has no finite value at its inputs');
  const slopes = inputs.map((q, i) => {
    const u = standardUncertainty(q);
    return u === 0 ? 0 : slope(f, at, i, u);
  });
  const { terms } = linear(inputs.map((of, i) => ({ factor: slopes[i] ?? 0, of })));
  return { value, terms };
}

function slope(f: (x: readonly number[]) => number, at: readonly number[], i: number, u: number): number {
  const moved = (by: number): number => f(at.map((x, j) => (j === i ? x + by : x)));
  for (const part of SMALLER) {
    const h = part * u;
    const found = (moved(h) - moved(-h)) / (2 * h);
    if (Number.isFinite(found)) return found;
  }
  throw new RangeError(`the function has no finite value near input ${i}`);
}

import { type DrawnTrials, drawnTrials } from '../uncertainty/drawn-trials.ts';
import { fromHalfWidth } from '../uncertainty/evaluation.ts';
import { type Spread, spreadOf, type Trials } from '../uncertainty/monte-carlo.ts';
import { covariance, linear, type Shape, term, type Uncertain, uncertain } from '../uncertainty/uncertain.ts';

/** One size of a stack: what is drawn in a trial, and the limits between which it stays. */
export interface StackTerm {
  readonly name: string;
  /** Its best value, with sources that other terms may share. */
  readonly q: Uncertain;
  readonly lower: number;
  readonly upper: number;
}

export type ToleranceShape = Exclude<Shape, 'arcsine'>;

/** Limits of a drawing taken as three standard deviations where a normal law is asked for. Common practice, no source. */
const SIGMAS = 3;

/**
 * A size known by its limits alone. Rectangular and triangular ones stay inside the limits; a normal one passes them
 * once in 370.
 *
 * @param source  the cause it shares with others of the same source; its own name when absent
 */
export function toleranceTerm(
  name: string,
  { lower, upper }: { readonly lower: number; readonly upper: number },
  shape: ToleranceShape = 'rectangular',
  source = name,
): StackTerm {
  const half = (upper - lower) / 2;
  const u = shape === 'normal' ? half / SIGMAS : fromHalfWidth(half, shape);
  return { name, q: uncertain((lower + upper) / 2, term(source, u, shape)), lower, upper };
}

/** What one term does to the result. */
export interface StackEffect {
  readonly name: string;
  /** Change of the result with the term, taken over the term's whole tolerance. */
  readonly slope: number;
  /** |slope| × half the tolerance: its part of the worst case. */
  readonly reach: number;
  /** Its part of the variance, what it shares with others divided evenly; the parts sum to 1. */
  readonly share: number;
}

export interface StackUp {
  /** With every term at its best value. */
  readonly value: number;
  /** Between the corners of the tolerances: exact where no term turns round inside them. */
  readonly worst: { readonly least: number; readonly greatest: number };
  /** √Σ (slope × half tolerance)²: the statistical tolerance, for independent terms. */
  readonly rootSumSquare: number;
  readonly spread: Spread;
  /** Results of the trials kept, rising. */
  readonly drawn: Float64Array;
  readonly effects: readonly StackEffect[];
}

type Relation = (x: Float64Array) => number;

/** Up to here every corner is tried; beyond, the corners that the slopes point to. */
const MOST_CORNERS_OF = 12;

/**
 * A stack of tolerances by three ways at once: worst case, root-sum-square and drawn.
 *
 *     worst   min and max of f over the corners of the tolerances
 *     rss     √Σ (∂f/∂xᵢ · tᵢ/2)²
 *     drawn   f of terms drawn together, each source once a trial
 *     share   cᵢ cov(xᵢ, y)/var(y), y = Σ cⱼ xⱼ
 *
 * @param terms  at least one
 * @param f      of the terms in their order; it is handed one array again and again and must not keep it
 * @source jcgm-101 clause 7 for the drawing; jcgm-100 5.1.2 and 5.2.2 for the shares
 */
export function stackUp(terms: readonly StackTerm[], f: Relation, { trials, seed }: Trials): StackUp {
  const at = (x: readonly number[]): number => f(Float64Array.from(x));
  const values = terms.map(({ q }) => q.value);
  const value = at(values);
  if (!Number.isFinite(value)) throw new RangeError('the stack has no finite value at its best values');
  const slopes = terms.map((one, i) => slopeOf(at, values, one, i));
  const reaches = terms.map(({ lower, upper }, i) => (Math.abs(slopes[i]!) * (upper - lower)) / 2);
  const drawn: DrawnTrials = drawnTrials(
    f,
    terms.map(({ q }) => q),
    { trials, seed },
  );
  if (drawn.kept.length < 2)
    throw new RangeError(`the stack had a finite value in ${drawn.kept.length} of ${trials} trials`);
  const spread = spreadOf(drawn.kept, drawn.lost);
  return {
    value,
    worst: worstOf(at, terms, slopes),
    rootSumSquare: Math.hypot(...reaches),
    spread,
    drawn: drawn.kept,
    effects: effectsOf(terms, slopes, reaches),
  };
}

function slopeOf(
  at: (x: readonly number[]) => number,
  values: readonly number[],
  { lower, upper }: StackTerm,
  i: number,
): number {
  if (!(upper > lower)) return 0;
  const moved = (to: number): number => at(values.map((x, j) => (j === i ? to : x)));
  const slope = (moved(upper) - moved(lower)) / (upper - lower);
  if (!Number.isFinite(slope))
    throw new RangeError(`the stack has no finite value at the limits of term ${i}`);
  return slope;
}

function worstOf(
  at: (x: readonly number[]) => number,
  terms: readonly StackTerm[],
  slopes: readonly number[],
): StackUp['worst'] {
  const pointed = (sign: number): number =>
    at(terms.map(({ lower, upper }, i) => (slopes[i]! * sign >= 0 ? upper : lower)));
  if (terms.length > MOST_CORNERS_OF) return { least: pointed(-1), greatest: pointed(1) };
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let corner = 0; corner < 1 << terms.length; corner++) {
    const y = at(terms.map(({ lower, upper }, i) => ((corner >> i) & 1 ? upper : lower)));
    if (y < least) least = y;
    if (y > greatest) greatest = y;
  }
  return { least, greatest };
}

function effectsOf(
  terms: readonly StackTerm[],
  slopes: readonly number[],
  reaches: readonly number[],
): StackEffect[] {
  const scaled = terms.map(({ q }, i) => linear([{ factor: slopes[i]!, of: q }]));
  const sum = linear(scaled.map((of) => ({ factor: 1, of })));
  const variance = covariance(sum, sum);
  return terms.map(({ name }, i) => ({
    name,
    slope: slopes[i]!,
    reach: reaches[i]!,
    share: variance > 0 ? covariance(scaled[i]!, sum) / variance : 0,
  }));
}

/** Share of rising results outside limits; one on a limit is inside. */
export function shareOutside(
  drawn: Float64Array,
  { lower, upper }: { readonly lower?: number | undefined; readonly upper?: number | undefined },
): number {
  const under = lower === undefined ? 0 : countBelow(drawn, lower - LAST_BITS * Math.abs(lower));
  const over =
    upper === undefined ? 0 : drawn.length - countBelow(drawn, upper + LAST_BITS * Math.abs(upper));
  return (under + over) / drawn.length;
}

const LAST_BITS = 1e-12;

function countBelow(rising: Float64Array, edge: number): number {
  let [low, high] = [0, rising.length];
  while (low < high) {
    const half = (low + high) >> 1;
    if (rising[half]! < edge) low = half + 1;
    else high = half;
  }
  return low;
}

import { exact, linear, propagated, type Uncertain } from '@fettle/core';

/**
 * What a relation is fed with: a number with its doubt, an interval with soft edges (a feeler answer, or a thing
 * unread but known not to be below zero), or nothing, with what is missing.
 */
export type Operand =
  | { readonly kind: 'value'; readonly q: Uncertain }
  | { readonly kind: 'interval'; readonly lower?: Uncertain; readonly upper?: Uncertain }
  /** Everything was read and still there is no figure, for the reason given. */
  | { readonly kind: 'missing'; readonly because?: string };

export const MISSING: Operand = { kind: 'missing' };
export const valued = (q: Uncertain): Operand => ({ kind: 'value', q });
export const interval = (lower: Uncertain | undefined, upper: Uncertain | undefined): Operand =>
  lower || upper ? { kind: 'interval', ...(lower && { lower }), ...(upper && { upper }) } : MISSING;

/** Both edges of an operand; a number is its own edges. */
function edges(operand: Operand): { lower?: Uncertain; upper?: Uncertain } {
  if (operand.kind === 'value') return { lower: operand.q, upper: operand.q };
  return operand.kind === 'interval' ? operand : {};
}

/** The operand with its edges, or its value, each put through a function that never falls. */
function rising(operands: readonly Operand[], f: (qs: readonly Uncertain[]) => Uncertain): Operand {
  if (operands.length === 0 || operands.some(({ kind }) => kind === 'missing')) return MISSING;
  if (operands.every((operand) => operand.kind === 'value')) return valued(f(operands.map(({ q }) => q)));
  const side = (which: 'lower' | 'upper'): Uncertain | undefined => {
    const all = operands.map((operand) => edges(operand)[which]);
    return all.every((edge) => edge !== undefined) ? f(all) : undefined;
  };
  return interval(side('lower'), side('upper'));
}

const negated = (operand: Operand): Operand => {
  if (operand.kind === 'missing') return MISSING;
  const minus = (q: Uncertain | undefined) => q && linear([{ factor: -1, of: q }]);
  if (operand.kind === 'value') return valued(linear([{ factor: -1, of: operand.q }]));
  return interval(minus(operand.upper), minus(operand.lower));
};

/** Σ factor × operand + constant. A bracket enters as its two edges, shifted by the others' best values. */
export function linearOf(
  parts: readonly { readonly factor: number; readonly of: Operand }[],
  constant: number,
): Operand {
  if (parts.length === 0) return valued(exact(constant));
  // A negative factor swaps the edges; turned round first, every part rises with its operand.
  return rising(
    parts.map(({ factor, of }) => (factor < 0 ? negated(of) : of)),
    (qs) =>
      linear(
        qs.map((of, i) => ({ factor: Math.abs(parts[i]!.factor), of })),
        constant,
      ),
  );
}

/** The mean of nothing is nothing, not zero. */
export function meanOf(operands: readonly Operand[]): Operand {
  if (operands.length === 0) return MISSING;
  return linearOf(
    operands.map((of) => ({ factor: 1 / operands.length, of })),
    0,
  );
}

/** (mean of x³)^⅓: the gap that would let through as much as the mapped one. */
export function meanCubeOf(operands: readonly Operand[]): Operand {
  return rising(operands, (qs) =>
    propagated((x) => Math.cbrt(x.reduce((sum, gap) => sum + gap ** 3, 0) / x.length), qs),
  );
}

const byValue = (a: Uncertain, b: Uncertain): number => a.value - b.value;

export const greatestOf = (operands: readonly Operand[]): Operand =>
  rising(operands, (qs) => [...qs].sort(byValue).at(-1)!);

export const leastOf = (operands: readonly Operand[]): Operand =>
  rising(operands, (qs) => [...qs].sort(byValue)[0]!);

/** Greatest less least. Errors common to both cancel, as they do in a taper. */
export function rangeOf(operands: readonly Operand[]): Operand {
  const least = leastOf(operands);
  const greatest = greatestOf(operands);
  const range = linearOf(
    [
      { factor: 1, of: greatest },
      { factor: -1, of: least },
    ],
    0,
  );
  // Intervals that overlap may hide no range at all, never less than none.
  if (range.kind === 'interval' && range.lower && range.lower.value < 0)
    return interval(exact(0), range.upper);
  return range;
}

/**
 * A function of several operands. A bracket goes through it by its edges, every edge with every other, so the function
 * must not turn round between them; a bracket open at one end gives no value, since nobody knows which end it opens.
 *
 * @param why  the reason where the function has no value for what was read
 */
export function functionOf(
  operands: readonly Operand[],
  f: (x: readonly number[]) => number,
  why: () => string = () => 'the formula has no value for these readings.',
): Operand {
  let corners: Uncertain[][] = [[]];
  for (const operand of operands) {
    const { lower, upper } = edges(operand);
    if (!lower || !upper) return MISSING;
    const ends = operand.kind === 'value' ? [lower] : [lower, upper];
    corners = corners.flatMap((corner) => ends.map((end) => [...corner, end]));
  }
  try {
    const answers = corners.map((corner) => propagated(f, corner)).sort(byValue);
    return operands.every(({ kind }) => kind === 'value')
      ? valued(answers[0]!)
      : interval(answers[0], answers.at(-1));
  } catch (error) {
    if (error instanceof RangeError) return { kind: 'missing', because: why() };
    throw error;
  }
}

/** Signs double with each term, and so does what they cancel. */
const MOST_TERMS = 12;

/**
 * P(X ≤ x) for the sum of independent centred rectangular terms, exactly:
 *
 *     F(x) = 1/(n! Π 2a_i) Σ over signs s of (Π s_i) max(0, x + Σ s_i a_i)ⁿ
 *
 * A feeler interval that dominates a budget makes the normal law too wide; this shows by how much.
 *
 * @param halfWidths a_i > 0, at most twelve
 * @source feller-2, I.9, example on sums of uniform variables
 */
export function rectangularSumCdf(halfWidths: readonly number[], x: number): number {
  const n = halfWidths.length;
  if (n < 1 || n > MOST_TERMS) throw new RangeError(`takes 1 to ${MOST_TERMS} terms, got ${n}`);
  let sum = 0;
  for (let signs = 0; signs < 1 << n; signs++) {
    let at = x;
    let sign = 1;
    halfWidths.forEach((a, i) => {
      const plus = (signs >> i) & 1;
      at += plus ? a : -a;
      sign *= plus ? 1 : -1;
    });
    sum += sign * Math.max(0, at) ** n;
  }
  const scale = halfWidths.reduce((product, a, i) => product * 2 * a * (i + 1), 1);
  return Math.min(1, Math.max(0, sum / scale));
}

/** The half-interval about the middle that holds a share `level` of the sum. */
export function rectangularSumHalfInterval(halfWidths: readonly number[], level: number): number {
  let [low, high] = [0, halfWidths.reduce((s, a) => s + a, 0)];
  for (let i = 0; i < 80; i++) {
    const half = (low + high) / 2;
    if (rectangularSumCdf(halfWidths, half) < (1 + level) / 2) low = half;
    else high = half;
  }
  return (low + high) / 2;
}

/**
 * Information that an outcome x is expected to give about which of several cases is true [bit].
 *
 *     I = Σ P(c) ∫ p(x|c) log2(p(x|c)/p(x)) dx,   p(x) = Σ P(c) p(x|c)
 *
 * Never below zero, never above the entropy of the cases.
 *
 * @param cases      P(c), summing to 1
 * @param densities  p(x|c) on one even grid, one a case; probabilities of an outcome that is counted go with step 1
 * @param step       of the grid [unit of x]
 * @source shannon-1948
 */
export function mutualInformation(
  cases: readonly number[],
  densities: readonly ArrayLike<number>[],
  step: number,
): number {
  const points = densities[0]?.length ?? 0;
  let sum = 0;
  for (let i = 0; i < points; i++) {
    let mixed = 0;
    for (let c = 0; c < cases.length; c++) mixed += cases[c]! * densities[c]![i]!;
    if (!(mixed > 0)) continue;
    for (let c = 0; c < cases.length; c++) {
      const p = densities[c]![i]!;
      if (p > 0 && cases[c]! > 0) sum += cases[c]! * p * Math.log2(p / mixed);
    }
  }
  return Math.max(0, sum * step);
}

/** H = −Σ P log2 P [bit]: how much there is to be learnt. @source shannon-1948 */
export const entropy = (cases: readonly number[]): number =>
  Math.max(
    0,
    cases.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0),
  );

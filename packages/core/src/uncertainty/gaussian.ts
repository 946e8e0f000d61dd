const HALF_LOG_2PI = 0.5 * Math.log(2 * Math.PI);

/**
 * Lower factor L of a symmetric positive definite matrix S = L Lᵀ, written over it (the upper half is left as it was).
 *
 * @param s  n × n, row by row
 * @returns  whether S was positive definite
 * @source   definition; Cholesky's factorisation
 */
export function factorInPlace(s: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = s[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= s[i * n + k]! * s[j * n + k]!;
      if (i === j) {
        if (!(sum > 0)) return false;
        s[i * n + i] = Math.sqrt(sum);
      } else s[i * n + j] = sum / s[j * n + j]!;
    }
  }
  return true;
}

/** L⁻¹ b, written over b. @param l  lower factor, n × n row by row */
export function whitenInPlace(l: Float64Array, b: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= l[i * n + k]! * b[k]!;
    b[i] = sum / l[i * n + i]!;
  }
}

/** L⁻ᵀ b, written over b: after `whitenInPlace` that is S⁻¹ b. @param l  lower factor, n × n row by row */
export function unwhitenInPlace(l: Float64Array, b: Float64Array, n: number): void {
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < n; k++) sum -= l[k * n + i]! * b[k]!;
    b[i] = sum / l[i * n + i]!;
  }
}

/**
 * Logarithm of the joint normal density, from what was whitened: r = L⁻¹ (y − mean).
 *
 *     ln N = −½ rᵀr − Σ ln L_ii − (n/2) ln 2π
 *
 * @source definition
 */
export function logNormalDensity(l: Float64Array, r: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum -= 0.5 * r[i]! * r[i]! + Math.log(l[i * n + i]!) + HALF_LOG_2PI;
  return sum;
}

/** Velocity that a load gives the journal; reused, so that an orbit allocates nothing. */
export interface SqueezeVelocity {
  x: number;
  y: number;
}

const MOST_TURNS = 40;
/** Below it the squares of an eccentricity leave the machine's numbers, and its direction says nothing. */
const CONCENTRIC = 1e-100;

/**
 * Mobility of the short bearing with half a film: the velocity at which a load squeezes the journal through it.
 *
 * Seen so that the mean turning of journal and shell stands still, the journal moves with a velocity V towards χ,
 * measured from the line of centres, and the film presses only before it:
 *
 *     p = 6 μ V (L²/4 − z²) cos(ψ − χ)/h³,  h = c (1 − ε cos ψ),  |ψ − χ| < π/2
 *     F c²/(μ L³ R) = I(χ) v,   I = ∫ (cos ψ, sin ψ)(cos ψ, sin ψ)ᵀ/(1 − ε cos ψ)³ dψ,  v = V/c
 *
 * Sommerfeld's substitution cos γ = (cos ψ − ε)/(1 − ε cos ψ) makes the three integrals closed and free of
 * cancellation. The force is the gradient of a convex function of v whose Hessian is I, for nothing enters at the
 * edges where p is zero: so v ← I(χ(v))⁻¹ F is Newton's method.
 *
 * @param ex, ey  eccentricity over clearance, under 1 in size
 * @param fx, fy  load on the journal times c²/(μ L³ R) [1/s]
 * @param out     dε/dt [1/s], less the mean turning
 * @source mobility-method; naca-1157 for the short film
 */
export function squeezeVelocity(ex: number, ey: number, fx: number, fy: number, out: SqueezeVelocity): void {
  out.x = 0;
  out.y = 0;
  const size = Math.sqrt(fx * fx + fy * fy);
  if (size === 0) return;
  const e = Math.min(Math.sqrt(ex * ex + ey * ey), 1 - 1e-9);
  // Along and across the line of centres; concentric, any line will do.
  const cx = e > CONCENTRIC ? ex / Math.sqrt(ex * ex + ey * ey) : fx / size;
  const cy = e > CONCENTRIC ? ey / Math.sqrt(ex * ex + ey * ey) : fy / size;
  const fr = (fx * cx + fy * cy) / size;
  const ft = (fy * cx - fx * cy) / size;
  const q = 1 - e * e;
  const rootQ = Math.sqrt(q);
  // The start is the closed curve of the short bearing in the frame of the load: (1−ξ)^5/2, −(4/π) η (1−ξ)^3/2.
  const xi = e * fr;
  const eta = -e * ft;
  const near = 1 - xi;
  const along = near * near;
  const across = (-4 / Math.PI) * eta * near;
  let vr = along * fr - across * ft;
  let vt = along * ft + across * fr;
  for (let i = 0; i < MOST_TURNS; i++) {
    const v = Math.sqrt(vr * vr + vt * vt);
    const cosChi = vr / v;
    const sinChi = vt / v;
    // The film runs from χ − π/2, where (cos ψ, sin ψ) = (sin χ, −cos χ), to χ + π/2.
    const h1 = 1 - e * sinChi;
    const h2 = 1 + e * sinChi;
    const cos1 = (sinChi - e) / h1;
    const sin1 = (-rootQ * cosChi) / h1;
    const cos2 = (-sinChi - e) / h2;
    const sin2 = (rootQ * cosChi) / h2;
    let span = Math.atan2(sin2 * cos1 - cos2 * sin1, cos1 * cos2 + sin1 * sin2);
    if (span < 0) span += 2 * Math.PI;
    const dSin = sin2 - sin1;
    const dSin2 = 2 * (sin2 * cos2 - sin1 * cos1);
    const icc = ((e * e + 0.5) * span + 2 * e * dSin + dSin2 / 4) / (q * q * rootQ);
    const ics = (-e * (cos2 - cos1) + (sin2 * sin2 - sin1 * sin1) / 2) / (q * q);
    const iss = (span / 2 - dSin2 / 4) / (q * rootQ);
    const det = icc * iss - ics * ics;
    const nextR = (iss * fr - ics * ft) / det;
    const nextT = (icc * ft - ics * fr) / det;
    const n = Math.sqrt(nextR * nextR + nextT * nextT);
    const turned = Math.abs(nextR * sinChi - nextT * cosChi) / n;
    vr = nextR;
    vt = nextT;
    if (turned < 1e-9) break;
  }
  out.x = size * (vr * cx - vt * cy);
  out.y = size * (vr * cy + vt * cx);
}

import { normalBetween, normalCdf, normalQuantile } from '../uncertainty/normal.ts';
import { isInside, isLimited, type Limits } from './limits.ts';

export type Verdict = 'in' | 'out' | 'cannot-tell';

/** ISO 14253-1 proves at 95 %: a risk of one in twenty. */
export const USUAL_RISK = 0.05;

/** A decision without the stretch of values that would be accepted, which takes longer to find than all the rest. */
export interface Decision {
  readonly verdict: Verdict;
  /** Probability that the true value lies inside the limits. */
  readonly probabilityIn: number;
  /** One-sided guard band, z(1 − risk) u. */
  readonly guardBand: number;
}

export interface Conformity extends Decision {
  /** Values from here on are proven in; absent without a lower limit, or when no value can be proven. */
  readonly acceptFrom?: number;
  readonly acceptTo?: number;
}

/**
 * Weighs a normally distributed value against its limits.
 *
 *     one limit   p = Φ((T_U − y)/u)  or  Φ((y − T_L)/u)
 *     two limits  p = Φ((T_U − y)/u) − Φ((T_L − y)/u)
 *     in when p ≥ 1 − risk, out when p ≤ risk, otherwise nobody can tell
 *
 * Where both limits are closer together than the reading is fine no value can be proven in, and `acceptFrom` and
 * `acceptTo` are both absent: what is wanted then is a finer instrument.
 *
 * @param q      y and its standard uncertainty u ≥ 0; u = 0 is an exact value
 * @param limits at least one
 * @param risk   above 0, up to 0.5
 * @source jcgm-106 7.3 to 7.5; iso-14253-1 for the 95 %
 */
export function conformity(
  q: { readonly value: number; readonly u: number },
  limits: Limits,
  risk = USUAL_RISK,
): Conformity {
  const decision = decisionOn(q, limits, risk);
  return { ...decision, ...acceptance(q.u, decision.guardBand, limits, risk) };
}

const USUAL_QUANTILE = -normalQuantile(USUAL_RISK);

/**
 * The decision of `conformity` alone.
 *
 * @source jcgm-106 7.3 to 7.5
 */
export function decisionOn(
  q: { readonly value: number; readonly u: number },
  limits: Limits,
  risk = USUAL_RISK,
): Decision {
  if (!isLimited(limits)) throw new RangeError('a verdict takes at least one limit');
  if (!(risk > 0 && risk <= 0.5)) throw new RangeError(`a risk lies above 0 and up to 0.5, got ${risk}`);
  const probabilityIn = probabilityInside(q, limits);
  const verdict = probabilityIn >= 1 - risk ? 'in' : probabilityIn <= risk ? 'out' : 'cannot-tell';
  const quantile = risk === USUAL_RISK ? USUAL_QUANTILE : -normalQuantile(risk);
  return { verdict, probabilityIn, guardBand: quantile * q.u };
}

function probabilityInside(
  { value, u }: { readonly value: number; readonly u: number },
  limits: Limits,
): number {
  if (u === 0) return isInside(value, limits) ? 1 : 0;
  const { lower, upper } = limits;
  if (lower === undefined) return upper === undefined ? 1 : normalCdf((upper - value) / u);
  if (upper === undefined) return normalCdf((value - lower) / u);
  return normalBetween((lower - value) / u, (upper - value) / u);
}

function acceptance(
  u: number,
  guardBand: number,
  limits: Limits,
  risk: number,
): Pick<Conformity, 'acceptFrom' | 'acceptTo'> {
  const { lower, upper } = limits;
  if (lower === undefined) return upper === undefined ? {} : { acceptTo: upper - guardBand };
  if (upper === undefined) return { acceptFrom: lower + guardBand };
  const middle = (lower + upper) / 2;
  const proven = (value: number): boolean => probabilityInside({ value, u }, limits) >= 1 - risk;
  if (upper < lower || !proven(middle)) return {};
  // The probability rises from the limit to the middle: halve until two neighbouring numbers are left.
  let [out, inside] = [Math.min(lower, lower + guardBand), middle];
  if (proven(out)) inside = out;
  for (let i = 0; i < 200; i++) {
    const half = out + (inside - out) / 2;
    if (half === out || half === inside) break;
    if (proven(half)) inside = half;
    else out = half;
  }
  return { acceptFrom: inside, acceptTo: lower + upper - inside };
}

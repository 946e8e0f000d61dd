import { normalBetween, normalCdf, normalQuantile } from '../uncertainty/normal.ts';
import { studentCdf, studentQuantile, wholeDof } from '../uncertainty/student.ts';
import { effectiveDof, standardUncertainty, type Uncertain } from '../uncertainty/uncertain.ts';
import { isInside, isLimited, type Limits } from './limits.ts';

export type Verdict = 'in' | 'out' | 'cannot-tell';

/** ISO 14253-1 proves at 95 %: a risk of one in twenty. */
export const USUAL_RISK = 0.05;

/** What a verdict weighs: y, its standard uncertainty u ≥ 0, and how well u itself is known. */
export interface Estimate {
  readonly value: number;
  /** 0 is an exact value. */
  readonly u: number;
  /** Effective degrees of freedom of u; without them u is taken as known, and the value as normal. */
  readonly dof?: number;
}

/** A quantity as a verdict weighs it. @source jcgm-100 G.4.1 for the degrees of freedom */
export const estimateOf = (q: Uncertain): Estimate => ({
  value: q.value,
  u: standardUncertainty(q),
  dof: effectiveDof(q),
});

/** A decision without the stretch of values that would be accepted, which takes longer to find than all the rest. */
export interface Decision {
  readonly verdict: Verdict;
  /** Probability that the true value lies inside the limits. */
  readonly probabilityIn: number;
  /** One-sided guard band, t(1 − risk; ν) u: 1.645 u at 5 % where u is known. */
  readonly guardBand: number;
}

export interface Conformity extends Decision {
  /** Values from here on are proven in; absent without a lower limit, or when no value can be proven. */
  readonly acceptFrom?: number;
  readonly acceptTo?: number;
}

/**
 * Weighs a value against its limits.
 *
 *     one limit   p = F((T_U − y)/u)  or  F((y − T_L)/u)
 *     two limits  p = F((T_U − y)/u) − F((T_L − y)/u)
 *     in when p ≥ 1 − risk, out when p ≤ risk, otherwise nobody can tell
 *
 * F is the normal Φ, or Student's t where u is itself an estimate from a few readings: with one degree of freedom
 * 6.31 u make a proof of 95 %, not 1.645 u. The whole part of the degrees is taken, as for the expanded uncertainty
 * shown beside the verdict, so that bar and verdict say the same.
 *
 * Where both limits are closer together than the reading is fine no value can be proven in, and `acceptFrom` and
 * `acceptTo` are both absent: what is wanted then is a finer instrument.
 *
 * @param limits at least one
 * @param risk   above 0, up to 0.5
 * @source jcgm-106 7.3 to 7.5; iso-14253-1 for the 95 %; jcgm-101 6.4.9.4 and jcgm-100 G.3.2 for the scaled and
 *         shifted t of a value whose u has degrees of freedom
 */
export function conformity(q: Estimate, limits: Limits, risk = USUAL_RISK): Conformity {
  const decision = decisionOn(q, limits, risk);
  return { ...decision, ...acceptance(q, decision.guardBand, limits, risk) };
}

const USUAL_QUANTILE = -normalQuantile(USUAL_RISK);
/** Quantiles at the usual risk by whole degrees of freedom: a search each, and asked for again and again. */
const usual = new Map<number, number>();

/** t that is exceeded with probability `risk`. */
function factorOf(risk: number, dof: number): number {
  if (dof === Infinity) return risk === USUAL_RISK ? USUAL_QUANTILE : -normalQuantile(risk);
  if (risk !== USUAL_RISK || !Number.isInteger(dof) || dof > 1000) return -studentQuantile(risk, dof);
  const known = usual.get(dof) ?? -studentQuantile(risk, dof);
  usual.set(dof, known);
  return known;
}

const dofOf = ({ dof = Infinity }: Estimate): number => wholeDof(dof);

/**
 * The decision of `conformity` alone.
 *
 * @source jcgm-106 7.3 to 7.5
 */
export function decisionOn(q: Estimate, limits: Limits, risk = USUAL_RISK): Decision {
  if (!isLimited(limits)) throw new RangeError('a verdict takes at least one limit');
  if (!(risk > 0 && risk <= 0.5)) throw new RangeError(`a risk lies above 0 and up to 0.5, got ${risk}`);
  const probabilityIn = probabilityInside(q, limits);
  const verdict = probabilityIn >= 1 - risk ? 'in' : probabilityIn <= risk ? 'out' : 'cannot-tell';
  return { verdict, probabilityIn, guardBand: factorOf(risk, dofOf(q)) * q.u };
}

/**
 * Probability that the true value lies inside the limits.
 *
 * @source jcgm-106 7.3, 7.4
 */
export function probabilityInside(q: Estimate, limits: Limits): number {
  const { value, u } = q;
  if (u === 0) return isInside(value, limits) ? 1 : 0;
  const { lower, upper } = limits;
  const dof = dofOf(q);
  const below = (t: number): number => (dof === Infinity ? normalCdf(t) : studentCdf(t, dof));
  if (lower === undefined) return upper === undefined ? 1 : below((upper - value) / u);
  if (upper === undefined) return below((value - lower) / u);
  const [from, to] = [(lower - value) / u, (upper - value) / u];
  if (dof === Infinity) return normalBetween(from, to);
  if (!(to > from)) return 0;
  // From the nearer tail, so that nothing cancels.
  return from > 0 ? below(-from) - below(-to) : below(to) - below(from);
}

function acceptance(
  q: Estimate,
  guardBand: number,
  limits: Limits,
  risk: number,
): Pick<Conformity, 'acceptFrom' | 'acceptTo'> {
  const { lower, upper } = limits;
  if (lower === undefined) return upper === undefined ? {} : { acceptTo: upper - guardBand };
  if (upper === undefined) return { acceptFrom: lower + guardBand };
  const middle = (lower + upper) / 2;
  const proven = (value: number): boolean => probabilityInside({ ...q, value }, limits) >= 1 - risk;
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

import type { Shape } from '../uncertainty/uncertain.ts';
import { effectiveDof, standardUncertainty, term, uncertain } from '../uncertainty/uncertain.ts';

/** One cause of doubt in what an instrument says. */
export interface BudgetTerm {
  readonly what: string;
  /** A limit of error, a half step, an expanded or a standard uncertainty [any one unit]. */
  readonly amount: number;
  readonly shape: Shape;
  /** What the amount is divided by to make a standard uncertainty. */
  readonly divisor: number;
  /** The same in all readings of the instrument, so that it cancels in a difference; or each reading's own. */
  readonly share: 'common' | 'own';
  /** Degrees of freedom; absent where the standard uncertainty itself is taken as known. */
  readonly dof?: number;
}

export interface InstrumentBudget {
  /** Standard uncertainty of each term, in their order. */
  readonly terms: readonly number[];
  /** Of one reading. */
  readonly u: number;
  /** Share of the variance that all readings have in common. */
  readonly commonShare: number;
  /** 2 u, as an instrument states it. */
  readonly U: number;
  /** Degrees of freedom of the readings' own part; infinite when taken as known. */
  readonly ownDof: number;
}

/**
 * A reading's uncertainty from its causes.
 *
 *     u_i = a_i / d_i,  u² = Σ u_i²,  common share = Σ_common u_i² / u²,  U = 2 u
 *
 * @source jcgm-100 4.3, 5.1.2, 6.2
 */
export function instrumentBudget(causes: readonly BudgetTerm[]): InstrumentBudget {
  const terms = causes.map(({ amount, divisor }) => amount / divisor);
  const of = (share: BudgetTerm['share']) =>
    uncertain(
      0,
      ...causes.flatMap((one, i) =>
        one.share === share
          ? [term(`${i}`, terms[i] ?? 0, one.shape, one.dof ?? Number.POSITIVE_INFINITY)]
          : [],
      ),
    );
  const [common, own] = [of('common'), of('own')];
  const u = Math.hypot(...terms);
  return {
    terms,
    u,
    commonShare: u === 0 ? 0 : (standardUncertainty(common) / u) ** 2,
    U: 2 * u,
    ownDof: effectiveDof(own),
  };
}

/** What divides a limit of error of each shape. @source jcgm-100 4.3.7, 4.3.9 */
export const LIMIT_DIVISOR = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  arcsine: Math.SQRT2,
} as const;

import {
  type Caution,
  type Cut,
  cutByBracket,
  decisionOn,
  estimateOf,
  feelerVerdict,
  normalQuantile,
  standardUncertainty,
  type Uncertain,
} from '@fettle/core';
import type { LimitSetName, Limits } from './limits.ts';
import type { Operand } from './operand.ts';

/** The share of wrong "in" and wrong "out" accepted. ISO 14253-1:2017 default. */
export const RISK = 0.05;

export type Answer = 'in' | 'out' | 'cannot-tell';

export interface Verdict {
  readonly set: LimitSetName;
  readonly limits: Limits;
  readonly verdict: Answer;
  /** What decided: a number with its doubt, a number cut by leaves, or leaves alone. */
  readonly by: 'value' | 'cut-value' | 'leaves';
  readonly probabilityIn?: number;
  readonly guardBand?: number;
  /** Where several places were weighed together, how many; probabilityIn is then that all of them are inside. */
  readonly places?: number;
  readonly cautions: readonly Caution[];
}

/** By each set of limits there is. */
export type Verdicts = Readonly<Partial<Record<LimitSetName, Verdict>>>;

type Interval = Operand & { kind: 'interval' };

/**
 * @param risk  share of wrong “in” and “out” accepted
 * @returns undefined where nothing is known
 */
export function verdictOf(
  operand: Operand,
  cut: Interval | undefined,
  set: LimitSetName,
  limits: Limits,
  risk = RISK,
): Verdict | undefined {
  if (operand.kind === 'missing') return undefined;
  if (operand.kind === 'interval') return byLeaves(operand, set, limits);
  return cut ? byCutValue(operand.q, cut, set, limits, risk) : byNumber(operand.q, set, limits, risk);
}

function byNumber(q: Uncertain, set: LimitSetName, limits: Limits, risk: number): Verdict {
  const decision = decisionOn(estimateOf(q), limits, risk);
  return {
    set,
    limits,
    verdict: decision.verdict,
    by: 'value',
    probabilityIn: decision.probabilityIn,
    guardBand: decision.guardBand,
    cautions: [],
  };
}

function byCutValue(q: Uncertain, cut: Interval, set: LimitSetName, limits: Limits, risk: number): Verdict {
  const inside = cutBy(q, cut);
  if (!inside) return byNumber(q, set, limits, risk);
  const probabilityIn = inside.probabilityInside(limits);
  return {
    set,
    limits,
    verdict: probabilityIn >= 1 - risk ? 'in' : probabilityIn <= risk ? 'out' : 'cannot-tell',
    by: 'cut-value',
    probabilityIn,
    cautions: [],
  };
}

/**
 * The pooled number inside the leaves' soft edges; undefined where nothing is soft.
 * What leaf and number may have in common is left out of account: the cut is then a little too kind to neither side.
 */
function cutBy(q: Uncertain, cut: Interval): Cut | undefined {
  const known = CUTS.get(q)?.get(cut);
  if (known) return known;
  const made = cutAnew(q, cut);
  if (made) {
    const ofNumber = CUTS.get(q) ?? new WeakMap<Interval, Cut>();
    CUTS.set(q, ofNumber.set(cut, made));
  }
  return made;
}

/** Both sets of limits, the worst place and what rests on it ask for the same cut, and each costs thousands of densities. */
const CUTS = new WeakMap<Uncertain, WeakMap<Interval, Cut>>();

function cutAnew(q: Uncertain, cut: Interval): Cut | undefined {
  const u = asNormal(q);
  // The floor at zero under "no leaf went" is no leaf.
  const leaves = [cut.lower, cut.upper].map((edge) => (edge && edge.terms.length > 0 ? edge : undefined));
  const edgeU = Math.max(0, ...leaves.map((edge) => (edge ? standardUncertainty(edge) : 0)));
  if (u === 0 || edgeU === 0) return undefined;
  return cutByBracket({ value: q.value, u }, { goes: leaves[0]?.value, stops: leaves[1]?.value }, edgeU);
}

/**
 * The standard uncertainty of the normal that is as wide at the risk accepted as the number is: the soft edges are
 * worked out with a normal, and where u has few degrees of freedom the number itself has longer tails.
 */
function asNormal(q: Uncertain): number {
  const { u } = estimateOf(q);
  return u === 0 ? 0 : decisionOn(estimateOf(q), { upper: q.value }, RISK).guardBand / -normalQuantile(RISK);
}

/** A pooled number narrowed by leaves, with its terms drawn in as much as the leaves narrow it. */
export function narrowed(q: Uncertain, cut: Interval): Uncertain {
  const inside = cutBy(q, cut);
  if (!inside) return q;
  const share = inside.u / asNormal(q);
  return { value: inside.value, terms: q.terms.map((term) => ({ ...term, u: term.u * share })) };
}

/** Leaves decide by the rule for leaves; a caution where a deciding edge is within its own doubt of the limit. */
function byLeaves(edges: Interval, set: LimitSetName, limits: Limits): Verdict {
  const bracket = { goes: edges.lower?.value, stops: edges.upper?.value };
  const decided = feelerVerdict(bracket, limits) ?? 'cannot-tell';
  // The rule for leaves takes it that a gap is not below nothing; what is derived may be.
  const open = limits.lower !== undefined && edges.lower === undefined;
  const verdict = decided === 'in' && open ? 'cannot-tell' : decided;
  const close = (edge: Uncertain | undefined, limit: number | undefined): boolean =>
    edge !== undefined &&
    limit !== undefined &&
    edge.terms.length > 0 &&
    Math.abs(edge.value - limit) < standardUncertainty(edge);
  const doubtful =
    verdict !== 'cannot-tell' &&
    (verdict === 'in'
      ? close(edges.upper, limits.upper) || close(edges.lower, limits.lower)
      : close(edges.lower, limits.upper) || close(edges.upper, limits.lower));
  return {
    set,
    limits,
    verdict,
    by: 'leaves',
    cautions: doubtful
      ? [
          {
            code: 'verdict/edge-near-limit',
            message:
              'The deciding leaf, with what was added to it, is within its own uncertainty of the limit.',
          },
        ]
      : [],
  };
}

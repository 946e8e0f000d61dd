import type { Uncertain } from '@fettle/core';
import { isCuredByWearOnly } from './cured.ts';
import type { Offer } from './offers.ts';
import { dry } from './plan-problem.ts';
import type { Planning, PlanSet } from './planning.ts';
import type { Requirement } from './requirements.ts';
import { cheapestSet, completions, type Problem } from './search.ts';

export interface Chosen {
  readonly offer: Offer;
  /** Verdicts that it settles. */
  readonly settles: readonly Requirement[];
  /** Of these, those that nothing else on offer settles. */
  readonly forcedBy: readonly Requirement[];
  readonly neededBy: readonly string[];
  /** The gauge if this were done alone; absent where it does not touch the oil. */
  readonly alone?: readonly Uncertain[];
  /** The plan's pressures and chance were it left out, as far as the oil goes. */
  readonly without?: { readonly pressures: readonly Uncertain[]; readonly chance: number };
  readonly ready: number;
  /** What it leaves in by wear only. */
  readonly byWearOnly: readonly string[];
}

export interface LeftOut {
  readonly offer: Offer;
  readonly why:
    | 'needs-what-is-not-offered'
    | 'not-in-time'
    /** No set with it settles the verdicts: those named force others that exclude it. */
    | 'not-admissible'
    /** Sets with it settle the verdicts, and none reaches the pressures. */
    | 'short-of-pressure'
    | 'not-needed';
  readonly against: readonly { readonly requirement: Requirement; readonly offers: readonly string[] }[];
  /** The cheapest plan that takes it. */
  readonly cheapestWith?: PlanSet;
}

/** The cheapest plan that lacks at least one thing of this one. */
export function nextPlan({ problem, confidence, asSet, bits }: Planning, taken: number): PlanSet | undefined {
  const others = bits.offers.flatMap((_, i) => {
    if (!(taken & (1 << i))) return [];
    const without = cheapestSet({ ...problem, banned: (problem.banned ?? 0) | (1 << i) }, confidence);
    return without ? [without] : [];
  });
  const [cheapest] = others.sort((a, b) => a.price - b.price || b.chance - a.chance);
  return cheapest && asSet(cheapest.taken);
}

export function chosenOf(planning: Planning, taken: number): Chosen[] {
  const { bits, chances, requirements, ready, problem, book } = planning;
  return bits.offers.flatMap((offer, i) => {
    if (!(taken & (1 << i))) return [];
    const settles = requirements.filter(({ curedBy }) => curedBy.some((ids) => ids.includes(offer.id)));
    const touchesOil = (problem.oil & (1 << i)) !== 0;
    return [
      {
        offer,
        settles,
        forcedBy: settles.filter(({ curedBy }) =>
          curedBy.some((ids) => ids.length === 1 && ids[0] === offer.id),
        ),
        neededBy: bits.offers.flatMap(({ id, body }, j) =>
          taken & (1 << j) && body.needs.includes(offer.id) ? [id] : [],
        ),
        ...(chances &&
          touchesOil && {
            alone: chances.pressures(1 << i),
            without: {
              pressures: chances.pressures(taken & problem.oil & ~(1 << i)),
              chance: problem.chance(taken & problem.oil & ~(1 << i)),
            },
          }),
        ready: ready.get(offer.id)!,
        byWearOnly: offer.body.restores.flatMap((one) => {
          const characteristic = book.characteristics.get(one.characteristic);
          return characteristic && isCuredByWearOnly(characteristic, one) ? [characteristic.name] : [];
        }),
      },
    ];
  });
}

export function leftOutOf(planning: Planning, taken: number): LeftOut[] {
  const { bits, problem, confidence, asSet, tooLate } = planning;
  return bits.offers.flatMap((offer, i): LeftOut[] => {
    const bit = 1 << i;
    if (taken & bit) return [];
    if (bits.incomplete & bit) return [{ offer, why: 'needs-what-is-not-offered', against: [] }];
    if (tooLate & bit) return [{ offer, why: 'not-in-time', against: [] }];
    const forced: Problem = { ...problem, requirements: [...problem.requirements, bit] };
    const found = cheapestSet(forced, confidence);
    if (found) return [{ offer, why: 'not-needed', against: [], cheapestWith: asSet(found.taken) }];
    if (completions(dry(forced)).length > 0) return [{ offer, why: 'short-of-pressure', against: [] }];
    return [{ offer, why: 'not-admissible', against: inTheWay(planning, i) }];
  });
}

/** The verdicts that only offers settle which exclude this one, by themselves or through what they need. */
function inTheWay({ requirements, bits }: Planning, i: number): LeftOut['against'] {
  const excludes = (id: string): boolean => {
    const own = bits.bit.get(id)!;
    return bits.choices.some(
      ({ excludes: against }, j) =>
        (j === own || bits.reaches(own, j)) &&
        bits.choices.some((_, k) => (k === i || bits.reaches(i, k)) && (against & (1 << k)) !== 0),
    );
  };
  return requirements.flatMap((requirement) => {
    const group = requirement.curedBy.find(
      (ids) => !ids.includes(bits.offers[i]!.id) && ids.every((id) => excludes(id)),
    );
    return group ? [{ requirement, offers: group }] : [];
  });
}

import {
  fromHalfWidth,
  type StackTerm,
  standardUncertainty,
  type ToleranceShape,
  term,
  toleranceTerm,
  type Uncertain,
  uncertain,
} from '@fettle/core';
import { limitsOf } from '../assess/limits.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import { narrowed } from '../assess/verdict.ts';
import { type Place, placeAlong, placeText } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';

/** Where a term of a stack comes from: the limits of the drawing, readings, or leaves between which it lies. */
type TermFrom = 'drawing' | 'readings' | 'leaves';

/** One input of a stack. */
export interface Leaf {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly from: TermFrom;
  readonly term: StackTerm;
  readonly entries: readonly string[];
}

/** How many standard uncertainties either side the worst case of something measured reaches: about 95 %. */
const REACH = 2;

/** By the limits for new parts alone, or as measured where it is and by those limits where it is not. */
export type StackBy = 'drawing' | 'measured';

export interface LeafRule {
  readonly by: StackBy;
  /** How sizes lie between the limits of a drawing. */
  readonly shape: ToleranceShape;
  /** The size parts are made to; that of the part fitted when absent. */
  readonly size?: string | undefined;
}

const named = (characteristic: Characteristic, place: Place): string =>
  `${characteristic.id}@${placeText(place)}`;

/**
 * A size by the limits for new parts. What is judged by its worst place is one feature of one part, and is drawn once
 * for all of it: a drawing's limits say nothing of how a bore differs from top to bottom.
 *
 * @returns undefined where the sheet does not give both limits
 */
export function drawnLeaf(
  reckoning: Reckoning,
  characteristic: Characteristic,
  place: Place,
  { shape, size }: LeafRule,
): Leaf | undefined {
  if (characteristic.kind === 'seen') return undefined;
  const over = characteristic.reduce?.over ?? [];
  const own = placeAlong(
    place,
    characteristic.places.filter((axis) => !over.includes(axis)),
  );
  const fitted = size ?? reckoning.ownState(characteristic, place)?.size;
  const { lower, upper } = limitsOf(characteristic, 'new', fitted) ?? {};
  if (lower === undefined || upper === undefined) return undefined;
  const name = named(characteristic, own);
  return {
    characteristic,
    place: own,
    from: 'drawing',
    term: toleranceTerm(name, { lower, upper }, shape),
    entries: [],
  };
}

/** A size as it is known now; undefined where nothing numbers it. */
export function measuredLeaf(
  reckoning: Reckoning,
  characteristic: Characteristic,
  place: Place,
): Leaf | undefined {
  const own = placeAlong(place, characteristic.places);
  const known = reckoning.at(characteristic.id, own);
  const { operand, cut, entries } = known;
  const name = named(characteristic, own);
  const base = { characteristic, place: own, entries };
  if (operand.kind === 'value') {
    const q = cut ? narrowed(operand.q, cut) : operand.q;
    const reach = REACH * standardUncertainty(q);
    const at = { name, q, lower: q.value - reach, upper: q.value + reach };
    return { ...base, from: 'readings', term: at };
  }
  if (operand.kind !== 'interval' || !operand.lower || !operand.upper) return undefined;
  return { ...base, from: 'leaves', term: betweenLeaves(name, operand.lower, operand.upper) };
}

/** Uniform between the leaf that goes and the one that does not, each with its own doubt beyond. */
function betweenLeaves(name: string, low: Uncertain, high: Uncertain): StackTerm {
  const half = (high.value - low.value) / 2;
  return {
    name,
    q: uncertain(low.value + half, term(name, fromHalfWidth(half, 'rectangular'), 'rectangular')),
    lower: low.value,
    upper: high.value,
  };
}

import {
  failed,
  type Issue,
  type Outcome,
  ok,
  type StackTerm,
  type StackUp,
  shareOutside,
  stackUp,
  type ToleranceShape,
} from '@fettle/core';
import { type Judgement, judgementsOf } from '../assess/judgement.ts';
import { type LimitSetName, type Limits, limitsOf } from '../assess/limits.ts';
import { Reckoning } from '../assess/reckoning.ts';
import type { Catalogue } from '../assess/relations.ts';
import { asFittedNow } from '../assess/selection.ts';
import type { Book } from '../fold/book.ts';
import { isAt, type Place, placeAlong, placesOf, placeText } from '../sheet/places.ts';
import { isOverSpots } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import type { Leaf, StackBy } from './leaves.ts';
import { type RelationFunction, relationFunction } from './relation-function.ts';

export interface StackAsked {
  readonly characteristic: string;
  /** Where; when absent the place nearest to being out as measured, and its first one by the drawing. */
  readonly place?: Place;
  readonly by?: StackBy;
  /** How sizes lie between the limits of a drawing: evenly when absent, since limits alone say no more. */
  readonly shape?: ToleranceShape;
  /** The size parts are made to; that of the parts fitted when absent. */
  readonly size?: string;
  readonly trials?: number;
  readonly seed?: number;
}

/** What follows when one tolerance is halved. */
interface Tightened {
  readonly leaf: Leaf;
  readonly rootSumSquare: number;
  readonly outside?: number;
}

export interface JobStack {
  readonly characteristic: Characteristic;
  readonly place: Place;
  readonly by: StackBy;
  readonly shape: ToleranceShape;
  readonly leaves: readonly Leaf[];
  readonly stack: StackUp;
  readonly limits?: Limits;
  /** Which limits: those for new parts by the drawing, those that judge the parts fitted as measured. */
  readonly set?: LimitSetName;
  /** Share of the trials outside the limits. */
  readonly outside?: number;
  /** The term with the largest share of the variance, halved. */
  readonly tighten: Tightened;
  readonly trials: number;
  readonly seed: number;
}

/** Enough to settle a chance of one in a hundred to a tenth of itself, and quick. */
const TRIALS = 100_000;
const SEED = 1;

/** The limits that judge; by the drawing those for new parts first. */
const setsFor = (governing: LimitSetName | undefined): readonly LimitSetName[] =>
  governing === 'wear' ? ['wear', 'new'] : ['new', 'wear'];

const issue = (code: string, got: string, wanted: string, message: string): Issue => ({
  code: `stack/${code}`,
  at: 'stack',
  got,
  wanted,
  message,
});

/** A derived characteristic as a stack over its inputs: worst case, root-sum-square, drawn, and what to tighten. */
export function jobStack(book: Book, asked: StackAsked, catalogue: Catalogue): Outcome<JobStack> {
  const characteristic = book.characteristics.get(asked.characteristic);
  if (!characteristic?.relation || isOverSpots(characteristic.relation) || characteristic.kind === 'seen')
    return failed(
      issue(
        'no-relation',
        asked.characteristic,
        'a characteristic that follows from others',
        `${characteristic?.name ?? asked.characteristic} does not follow from other sizes, so nothing stacks up in it. "fettle stack JOB" lists what does.`,
      ),
    );
  const { by = 'drawing', shape = 'rectangular', size } = asked;
  const reckoning = new Reckoning(book, asFittedNow(book), catalogue);
  const judged = by === 'measured' ? judgementsOf(reckoning, characteristic) : [];
  const place = placeAsked(book, characteristic, asked.place ?? worstPlace(judged));
  if (!place)
    return failed(
      issue(
        'unknown-place',
        placeText(asked.place ?? {}),
        placesAsked(book, characteristic)
          .map((at) => placeText(at))
          .join(', '),
        `${characteristic.name} has no place "${placeText(asked.place ?? {})}".`,
      ),
    );
  const found = relationFunction(reckoning, catalogue, characteristic.relation, place, { by, shape, size });
  if (found.lacking.length > 0) return failed(lackingIssue(characteristic, found, by));
  if (found.leaves.length === 0)
    return failed(
      issue('no-terms', characteristic.id, 'sizes that vary', `Nothing varies in ${characteristic.name}.`),
    );
  const { trials = TRIALS, seed = SEED } = asked;
  const judgedSize =
    size ??
    found.leaves
      .map(({ characteristic: c, place: at }) => reckoning.ownState(c, at)?.size)
      .find((s) => s !== undefined);
  const governing = judged.find(({ place: at }) => isAt(at, place))?.governing;
  const set = setsFor(governing).find((one) => limitsOf(characteristic, one, judgedSize));
  const limits = set && limitsOf(characteristic, set, judgedSize);
  try {
    const run = { trials, seed };
    const terms = found.leaves.map(({ term }) => term);
    const stack = stackUp(terms, found.value, run);
    return ok({
      characteristic,
      place,
      by,
      shape,
      leaves: found.leaves,
      stack,
      ...(set && limits && { limits, set, outside: shareOutside(stack.drawn, limits) }),
      tighten: tightened(found, stack, limits, run),
      trials,
      seed,
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return failed(
      issue(
        'no-value',
        error.message,
        'inputs that give a value',
        `${characteristic.name} has no value with these inputs (${error.message}). Check the limits of what it follows from.`,
      ),
    );
  }
}

/** The places a stack is asked at: one for each that is judged alone. */
export const placesAsked = (book: Book, characteristic: Characteristic): Place[] => {
  const over = characteristic.reduce?.over ?? [];
  const axes = characteristic.places.filter((axis) => !over.includes(axis));
  const all = placesOf(book.sheet ?? { axes: {} }, characteristic).map((place) => placeAlong(place, axes));
  return [...new Map(all.map((place) => [placeText(place), place])).values()];
};

/** Where what was measured is nearest to being out. */
function worstPlace(judged: readonly Judgement[]): Place | undefined {
  const known = judged.flatMap(({ place, worstAt, governing, verdicts }) => {
    const probability = governing && verdicts[governing]?.probabilityIn;
    return probability === undefined ? [] : [{ at: worstAt ?? place, probability }];
  });
  return known.sort((a, b) => a.probability - b.probability)[0]?.at;
}

/** A whole place: what was asked, and the first value of every axis left open. */
function placeAsked(book: Book, characteristic: Characteristic, asked: Place | undefined): Place | undefined {
  const wanted = Object.entries(asked ?? {});
  return placesOf(book.sheet ?? { axes: {} }, characteristic).find((place) =>
    wanted.every(([axis, value]) => place[axis] === value),
  );
}

function lackingIssue(characteristic: Characteristic, { lacking }: RelationFunction, by: StackBy): Issue {
  const names = [...new Set(lacking.map((one) => one.characteristic.name))].join(', ');
  return issue(
    'lacking',
    `nothing of ${names}`,
    by === 'measured' ? 'readings, or both limits for new parts' : 'both limits for new parts on the sheet',
    by === 'measured'
      ? `${characteristic.name} rests on ${names}, of which there are neither readings nor both limits for new parts. Measure it, or enter its limits.`
      : `${characteristic.name} rests on ${names}, for which the sheet does not give both limits for new parts. Enter them with their source.`,
  );
}

function tightened(
  { leaves, value }: RelationFunction,
  { effects }: StackUp,
  limits: Limits | undefined,
  run: { readonly trials: number; readonly seed: number },
): Tightened {
  const most = effects.reduce((best, { share }, i) => (share > effects[best]!.share ? i : best), 0);
  const leaf = leaves[most]!;
  const again = stackUp(
    leaves.map(({ term }, i) => (i === most ? halved(term) : term)),
    value,
    run,
  );
  return {
    leaf,
    rootSumSquare: again.rootSumSquare,
    ...(limits && { outside: shareOutside(again.drawn, limits) }),
  };
}

/** Half the tolerance about the same best value. */
const halved = ({ name, q, lower, upper }: StackTerm): StackTerm => ({
  name,
  q: { value: q.value, terms: q.terms.map((one) => ({ ...one, u: one.u / 2 })) },
  lower: q.value - (q.value - lower) / 2,
  upper: q.value + (upper - q.value) / 2,
});

/**
 * Every characteristic that stacks up sizes of at least two kinds, by the limits of the drawing or as measured. A taper
 * or a spread of weights compares sizes of one kind and is no stack.
 */
export function stacksOf(
  book: Book,
  catalogue: Catalogue,
): { readonly characteristic: Characteristic; readonly by: readonly StackBy[]; readonly terms: number }[] {
  const reckoning = new Reckoning(book, asFittedNow(book), catalogue);
  return [...book.characteristics.values()].flatMap((characteristic) => {
    const place = placeAsked(book, characteristic, undefined);
    const { relation } = characteristic;
    if (relation === undefined || characteristic.kind === 'seen' || !place) return [];
    const found = (['drawing', 'measured'] as const).flatMap((by) => {
      const { leaves, lacking } = relationFunction(reckoning, catalogue, relation, place, {
        by,
        shape: 'rectangular',
      });
      const told = by === 'drawing' || leaves.some(({ from }) => from !== 'drawing');
      const several = new Set(leaves.map((leaf) => leaf.characteristic.id)).size > 1;
      return lacking.length === 0 && several && told ? [{ by, terms: leaves.length }] : [];
    });
    return found.length === 0
      ? []
      : [
          {
            characteristic,
            by: found.map(({ by }) => by),
            terms: Math.max(...found.map(({ terms }) => terms)),
          },
        ];
  });
}

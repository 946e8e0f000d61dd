import { conformity, estimateOf, linear, type Uncertain } from '@fettle/core';
import { constantOf } from '../assess/constant.ts';
import { type Limits, limitsOf, siOf } from '../assess/limits.ts';
import type { Reckoning } from '../assess/reckoning.ts';
import type { Book } from '../fold/book.ts';
import { type Place, placeAlong } from '../sheet/places.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { placesAsked } from '../stack/job-stack.ts';

/** One thickness tried. */
interface ThicknessTried {
  readonly name: string;
  readonly obtainable: boolean;
  readonly gap: Uncertain;
  readonly status: 'in' | 'out' | 'cannot-tell';
  readonly probabilityIn: number;
}

/** A gap that is set by what is put in: shims, thrust washers, gaskets of several thicknesses. */
export interface ChosenThickness {
  readonly gap: Characteristic;
  readonly place: Place;
  readonly filler: Characteristic;
  readonly limits: Limits;
  readonly target: number;
  readonly tried: readonly ThicknessTried[];
  /** Of those that can be had, the one likeliest inside; nearest to the target where several are proven. */
  readonly best?: ThicknessTried;
}

const STANDARD = 'standard';

/**
 * Thicknesses to choose from: where a gap with limits follows linearly from a size that is sold in several and from
 * others that are known.
 *
 *     gap = rest + f (standard + shift)
 */
export const chosenThicknesses = (book: Book, reckoning: Reckoning): ChosenThickness[] =>
  [...book.characteristics.values()].flatMap((gap) => {
    const { relation } = gap;
    const limits = limitsOf(gap, 'new', undefined);
    if (!limits || relation === undefined || typeof relation === 'string' || !('linear' in relation))
      return [];
    const named = relation.linear.terms.map(({ factor, of }) => ({
      factor,
      of: typeof of === 'string' ? book.characteristics.get(of) : undefined,
    }));
    const sold = named.filter(
      ({ of }) => of?.sizes?.length && of.limits === undefined && of.position !== gap.position,
    );
    const constant = constantOf(relation.linear.constant);
    const [filler] = sold;
    if (sold.length !== 1 || !filler?.of || constant === undefined) return [];
    if (named.some(({ of }) => of === undefined)) return [];
    return placesAsked(book, gap).flatMap((place): ChosenThickness[] => {
      const rest = restOf(
        reckoning,
        named.filter((one) => one !== filler),
        place,
        constant,
      );
      return rest ? [triedAt(gap, place, filler.of!, filler.factor, limits, rest)] : [];
    });
  });

function restOf(
  reckoning: Reckoning,
  others: readonly { readonly factor: number; readonly of: Characteristic | undefined }[],
  place: Place,
  constant: number,
): Uncertain | undefined {
  const parts = others.map(({ factor, of }) => {
    const { operand } = reckoning.at(of!.id, placeAlong(place, of!.places));
    return operand.kind === 'value' ? { factor, of: operand.q } : undefined;
  });
  if (parts.some((part) => part === undefined)) return undefined;
  return linear(
    parts.map((part) => part!),
    constant,
  );
}

function triedAt(
  gap: Characteristic,
  place: Place,
  filler: Characteristic,
  factor: number,
  limits: Limits,
  rest: Uncertain,
): ChosenThickness {
  const { lower, upper } = limits;
  const target = limits.target ?? middle(lower, upper);
  const sizes = [{ name: STANDARD, shift: undefined, obtainable: true }, ...(filler.sizes ?? [])];
  const tried = sizes.map(({ name, shift, obtainable }): ThicknessTried => {
    const q = { ...rest, value: rest.value + factor * (siOf(shift, filler) ?? 0) };
    const { verdict, probabilityIn } = conformity(estimateOf(q), limits);
    return { name, obtainable, gap: q, status: verdict, probabilityIn };
  });
  const best = tried
    .filter(({ obtainable }) => obtainable)
    .sort(
      (a, b) =>
        Number(b.status === 'in') - Number(a.status === 'in') ||
        (a.status === 'in' ? 0 : b.probabilityIn - a.probabilityIn) ||
        Math.abs(a.gap.value - target) - Math.abs(b.gap.value - target),
    )[0];
  return { gap, place, filler, limits, target, tried, ...(best && best.status !== 'out' && { best }) };
}

const middle = (lower: number | undefined, upper: number | undefined): number =>
  lower !== undefined && upper !== undefined ? (lower + upper) / 2 : (lower ?? upper)!;

import type { Offer } from './offers.ts';
import type { OilModel } from './oil-effects.ts';
import type { Requirement } from './requirements.ts';
import type { Choice, Problem } from './search.ts';

/** Offers as bits, with what they need and exclude, said or plain from what they do. */
export interface OfferBits {
  readonly offers: readonly Offer[];
  readonly bit: ReadonlyMap<string, number>;
  readonly choices: readonly Choice[];
  /** Bits of offers that need something that is not on offer. */
  readonly incomplete: number;
  /** Whether a needs b, through whatever lies between. */
  readonly reaches: (a: number, b: number) => boolean;
}

export function offerBits(offers: readonly Offer[], model: OilModel | undefined): OfferBits {
  const bit = new Map(offers.map(({ id }, i) => [id, i]));
  const maskOf = (ids: readonly string[]): number =>
    ids.reduce((mask, id) => (bit.has(id) ? mask | (1 << bit.get(id)!) : mask), 0);
  const needs = offers.map(({ body }) => maskOf(body.needs));
  const reach = reachable(needs);
  const reaches = (a: number, b: number): boolean => (reach[a]! & (1 << b)) !== 0;
  const excludes = offers.map(({ body }) => maskOf(body.excludes));
  for (const [a, b] of rivals(model, bit, reaches)) excludes[a]! |= 1 << b;
  // Excluding goes both ways, whoever said it.
  excludes.forEach((mask, a) => {
    for (let b = 0; b < offers.length; b++) if (mask & (1 << b)) excludes[b]! |= 1 << a;
  });
  const lacking = offers.reduce(
    (mask, { body }, i) => (body.needs.some((id) => !bit.has(id)) ? mask | (1 << i) : mask),
    0,
  );
  return {
    offers,
    bit,
    choices: offers.map(({ body }, i) => ({
      price: body.price,
      needs: needs[i]!,
      excludes: excludes[i]! & ~(1 << i),
    })),
    incomplete: offers.reduce((mask, _, i) => (reach[i]! & lacking ? mask | (1 << i) : mask), lacking),
    reaches,
  };
}

function reachable(needs: readonly number[]): number[] {
  const reach = [...needs];
  for (let changed = true; changed; ) {
    changed = false;
    reach.forEach((mask, i) => {
      const more = needs.reduce((all, _, j) => (mask & (1 << j) ? all | reach[j]! : all), mask);
      if (more === mask) return;
      reach[i] = more;
      changed = true;
    });
  }
  return reach;
}

/** Offers that bring one clearance to two values, or fill two grades: only one of them can be meant. */
function rivals(
  model: OilModel | undefined,
  bit: ReadonlyMap<string, number>,
  reaches: (a: number, b: number) => boolean,
): [number, number][] {
  const pairs: [number, number][] = [];
  const effects = model?.effects ?? [];
  effects.forEach((one, k) => {
    for (const other of effects.slice(k + 1)) {
      const [a, b] = [bit.get(one.offer.id)!, bit.get(other.offer.id)!];
      if (reaches(a, b) || reaches(b, a)) continue;
      const apart = [...one.values].some(([i, { value }]) => {
        const theirs = other.values.get(i)?.value;
        return theirs !== undefined && theirs !== value;
      });
      const grades = one.grade !== undefined && other.grade !== undefined && one.grade !== other.grade;
      if (apart || grades) pairs.push([a, b]);
    }
  });
  return pairs;
}

/** Sets of the offers in `mask` that exclude nothing of each other, counted up to `most`. */
export function combinations({ choices }: OfferBits, mask: number, most: number): number {
  const open = choices.flatMap((_, i) => (mask & (1 << i) ? [i] : []));
  let found = 0;
  const walk = (depth: number, excluded: number): void => {
    if (found >= most) return;
    const bit = open[depth];
    if (bit === undefined) {
      found++;
      return;
    }
    walk(depth + 1, excluded);
    if (!(excluded & (1 << bit))) walk(depth + 1, excluded | choices[bit]!.excludes);
  };
  walk(0, 0);
  return found;
}

/** Each place that is out as the bits that cure it. */
export const requirementBits = (requirements: readonly Requirement[], { bit }: OfferBits): number[] =>
  requirements.flatMap(({ curedBy }) =>
    curedBy.map((ids) => ids.reduce((mask, id) => mask | (1 << bit.get(id)!), 0)),
  );

export const idsIn = (mask: number, { offers }: OfferBits): string[] =>
  offers.flatMap(({ id }, i) => (mask & (1 << i) ? [id] : []));

/** Whatever the pressure: no offer touches the oil. */
export const dry = (problem: Problem): Problem => ({ ...problem, oil: 0, hopeful: () => true });

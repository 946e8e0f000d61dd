import { isCured } from '../plan/cured.ts';
import { isAt } from '../sheet/places.ts';
import { readingsAt } from './finer-input.ts';
import type { Judgement } from './judgement.ts';
import type { Reckoning } from './reckoning.ts';

interface Restoring {
  readonly id: string;
  readonly name: string;
  readonly price: number;
  /** Names of what it can only be done with. */
  readonly needs: readonly string[];
}

/** What is out needs no more measuring: what on record restores it, cheapest first, else the sizes it can be had in. */
export interface Restore {
  readonly move: 'restore';
  readonly offers: readonly Restoring[];
  readonly sizes: readonly string[];
  readonly currency?: string;
}

/** What brings a judgement back that is out, of what is on record, at every place of it that is out. */
export function restoring(reckoning: Reckoning, judgement: Judgement): Restore {
  const { characteristic, governing, members } = judgement;
  const isWhole = (characteristic.reduce?.by ?? 'worst') !== 'worst';
  const bad = members.filter(
    ({ verdicts }) => isWhole || (governing && verdicts[governing]?.verdict === 'out'),
  );
  const places = bad.length > 0 ? bad.map(({ place }) => place) : [judgement.place];
  const offers = [...reckoning.book.offers.values()]
    .filter(({ body }) =>
      places.every((place) =>
        body.restores.some(
          (one) =>
            one.characteristic === characteristic.id &&
            isAt(one.at ?? {}, place) &&
            isCured(characteristic, one),
        ),
      ),
    )
    .map(({ body }) => ({
      id: body.offer,
      name: body.name,
      price: body.price,
      needs: body.needs.map((id) => reckoning.book.offers.get(id)?.body.name ?? id),
    }))
    .sort((a, b) => a.price - b.price);
  const behind = readingsAt(reckoning, judgement.entries).map(({ body }) => body.characteristic);
  const sizes = [characteristic.id, ...behind].flatMap((id) =>
    (reckoning.characteristic(id).sizes ?? []).filter(({ obtainable }) => obtainable).map(({ name }) => name),
  );
  const currency = reckoning.book.opened?.body.currency;
  return { move: 'restore', offers, sizes: [...new Set(sizes)], ...(currency !== undefined && { currency }) };
}

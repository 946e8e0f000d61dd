import type { Book } from '../fold/book.ts';
import { placeText } from '../sheet/places.ts';
import { type Judgement, judgementsOf } from './judgement.ts';
import { Reckoning } from './reckoning.ts';
import type { Catalogue } from './relations.ts';
import type { Selection } from './selection.ts';

export interface AsRead {
  /** Temperatures said of the parts, as said, each once. */
  readonly temperatures: readonly string[];
  /** The same judgement with every size taken as it was read, wherever the part's temperature stood. */
  readonly judgement: Judgement;
}

/** What a judgement would be without the correction to 20 °C; nothing where no temperature was said. */
export function asRead(
  book: Book,
  selection: Selection,
  catalogue: Catalogue,
  judgement: Judgement,
): AsRead | undefined {
  const behind = new Set(judgement.entries);
  const warm = book.readings.filter(({ entry, body }) => behind.has(entry.id) && body.temperature?.part);
  if (warm.length === 0) return undefined;
  const cold: Book = {
    ...book,
    readings: book.readings.map((reading) => {
      const { temperature: _, ...body } = reading.body;
      return behind.has(reading.entry.id) ? { ...reading, body } : reading;
    }),
  };
  const again = judgementsOf(new Reckoning(cold, selection, catalogue), judgement.characteristic).find(
    ({ place }) => placeText(place) === placeText(judgement.place),
  );
  return (
    again && {
      temperatures: [...new Set(warm.map(({ body }) => body.temperature!.part!))],
      judgement: again,
    }
  );
}

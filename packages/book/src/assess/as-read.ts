import type { Book, ReadingOnRecord } from '../fold/book.ts';
import { placeText } from '../sheet/places.ts';
import { isAwayFromTwenty } from './at-twenty.ts';
import { expansionOf } from './expansion.ts';
import { type Judgement, judgementsOf } from './judgement.ts';
import type { Operand } from './operand.ts';
import { Reckoning } from './reckoning.ts';
import type { Catalogue } from './relations.ts';
import type { Selection } from './selection.ts';

export interface AsRead {
  /** Temperatures said of the parts, as said, each once. */
  readonly temperatures: readonly string[];
  /** Of what was read away from 20 °C, how much the sheet gives an expansion for. */
  readonly corrected: 'all' | 'some' | 'none';
  /** Worked out from several lengths, all of them read at the same temperatures on one material. */
  readonly shared: boolean;
  /** The same figure at the same place, every size taken as it was read. */
  readonly operand: Operand;
  /** The same judgement so; its worst place may be another. */
  readonly judgement: Judgement;
}

/** What a judgement would be without the correction to 20 °C; nothing where no temperature was said. */
export function asRead(
  book: Book,
  selection: Selection,
  catalogue: Catalogue,
  judgement: Judgement,
): AsRead | undefined {
  const entries = new Set(judgement.entries);
  // What does not change with the temperature, as far as anybody says, takes no part: a taper read as such.
  const behind = book.readings.filter(
    (one) =>
      entries.has(one.entry.id) &&
      book.characteristics.get(one.body.characteristic)?.kind === 'length' &&
      (isAwayFromTwenty(one) || expansionAt(book, one) !== undefined),
  );
  const warm = behind.filter(isAwayFromTwenty);
  if (warm.length === 0) return undefined;
  const cold: Book = {
    ...book,
    readings: book.readings.map((reading) => {
      const { temperature: _, ...body } = reading.body;
      return entries.has(reading.entry.id) ? { ...reading, body } : reading;
    }),
  };
  const again = judgementsOf(new Reckoning(cold, selection, catalogue), judgement.characteristic).find(
    ({ place }) => placeText(place) === placeText(judgement.place),
  );
  if (!again) return undefined;
  const { worstAt } = judgement;
  const same =
    worstAt && again.members.find(({ place }) => placeText(place) === placeText(worstAt))?.known.operand;
  const corrected = warm.filter((one) => expansionAt(book, one)).length;
  return {
    temperatures: [
      ...new Set(
        warm.flatMap(({ body: { temperature } }) => temperature?.part ?? temperature?.instrument ?? []),
      ),
    ],
    corrected: corrected === warm.length ? 'all' : corrected > 0 ? 'some' : 'none',
    shared:
      judgement.characteristic.relation !== undefined &&
      corrected === behind.length &&
      new Set(behind.map((one) => conditionsOf(book, one))).size === 1,
    operand: same ?? again.operand,
    judgement: again,
  };
}

function expansionAt(book: Book, { body }: ReadingOnRecord): string | undefined {
  const characteristic = book.characteristics.get(body.characteristic);
  return characteristic && expansionOf(book, characteristic)?.of;
}

const conditionsOf = (book: Book, reading: ReadingOnRecord): string =>
  JSON.stringify([
    reading.body.temperature?.part,
    reading.body.temperature?.instrument,
    expansionAt(book, reading),
  ]);

import type { Assessed } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import { positionAt } from '../sheet/places.ts';

/** What is judged of a part where it stands now; nothing of a part that is not fitted. */
export function judgementsOfPart(book: Book, part: string, judgements: readonly Assessed[]): Assessed[] {
  const position = [...book.positions.values()].find(({ now }) => now?.part === part)?.id;
  if (position === undefined) return [];
  return judgements.filter(
    ({ characteristic, place }) =>
      characteristic.position !== undefined && positionAt(characteristic.position, place) === position,
  );
}

import type { Assessed } from '../assess/assessment.ts';
import { stateNamed } from '../assess/selection.ts';
import type { Book, Part } from '../fold/book.ts';
import { positionAt } from '../sheet/places.ts';

/** What the readings say of one part. */
export interface PartEvidence {
  readonly part: Part;
  readonly position: string;
  /** Verdicts on the part itself, and on what the sheet measures at its place. */
  readonly own: readonly Assessed[];
  /** Verdicts that other parts' own verdicts count under, and in which this one has a share. */
  readonly shared: readonly { readonly judgement: Assessed; readonly with: readonly string[] }[];
}

/** The parts fitted now, each with the verdicts that bear on it, in the order of the sheet's positions. */
export function evidenceOfParts(book: Book, judgements: readonly Assessed[]): PartEvidence[] {
  const fitted = [...book.positions.values()].flatMap(({ id, now }) => {
    const part = now && book.parts.get(now.part);
    return part ? [{ position: id, part }] : [];
  });
  return fitted.map(({ position, part }) => {
    const own: Assessed[] = [];
    const shared: PartEvidence['shared'][number][] = [];
    for (const judgement of judgements) {
      if (judgement.status === 'no-limits') continue;
      const rests = judgement.states.some(({ id }) => id === part.current.id);
      if (isAtPosition(judgement, position)) own.push(judgement);
      else if (rests)
        shared.push({
          judgement,
          with: [
            ...new Set(
              judgement.states.flatMap(({ id }) => {
                const other = stateNamed(book, id)?.part;
                return other === undefined || other === part.id ? [] : [other];
              }),
            ),
          ],
        });
    }
    return { part, position, own, shared };
  });
}

/** Whether the sheet fits what is judged in this position. */
function isAtPosition({ characteristic, place, members }: Assessed, position: string): boolean {
  const pattern = characteristic.position;
  if (pattern === undefined) return false;
  const places = members.length > 0 ? members.map((member) => member.place) : [place];
  return places.some((at) => positionAt(pattern, at) === position);
}

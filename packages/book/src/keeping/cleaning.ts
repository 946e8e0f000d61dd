import type { Book, Part, PartState } from '../fold/book.ts';
import type { Body } from '../ledger/bodies.ts';
import { bodyOf, type Entry, isKnown } from '../ledger/entry.ts';

type Step = 'opened' | 'washed' | 'blown' | 'seen through';

/** A machined or blasted part that nobody has proven clean since. */
export interface Unclean {
  readonly part: Part;
  readonly state: PartState;
  readonly blasted: boolean;
  /** What is not done or not said, in the order in which it is done. */
  readonly missing: readonly Step[];
}

const STEPS: readonly (readonly [Step, (body: Body<'part-cleaned'>) => boolean])[] = [
  ['opened', ({ opened }) => opened],
  ['washed', ({ washed }) => washed],
  ['blown', ({ blown }) => blown],
  ['seen through', ({ seen_through }) => seen_through],
];

/** What a part that came back machined or blasted still wants before anything is fitted over it. */
export function uncleanParts(book: Book): Unclean[] {
  const byId = new Map(book.entries.map((entry) => [entry.id, entry]));
  return [...book.parts.values()].flatMap((part) => {
    const state = part.current;
    const began = byId.get(state.id);
    if (began?.kind !== 'part-reworked' || !isKnown(began)) return [];
    const cleaning = book.cleanings.get(state.id)?.body;
    const missing = STEPS.filter(([, done]) => !cleaning || !done(cleaning)).map(([step]) => step);
    const blasted = bodyOf(began as Entry & { kind: 'part-reworked' }).blasted === true;
    return missing.length === 0 ? [] : [{ part, state, blasted, missing }];
  });
}

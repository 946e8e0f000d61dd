import type { Outcome } from '../outcome.ts';
import type { Appended, Store } from '../store.ts';
import type { ArchiveContent } from './reading.ts';

/** The union of what the store has and what the archive holds; imported twice, it is there once. All or nothing. */
export function imported(store: Store, content: ArchiveContent): Promise<Outcome<Appended>> {
  return store.append(content);
}

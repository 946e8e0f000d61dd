import type { Locks } from './writing.ts';

/**
 * Locks across the tabs of a browser; over plain HTTP from another device it has none, and one tab takes turns with
 * itself. That is enough there: entries are numbered inside one transaction, which tabs share, and what two tabs send
 * at once the server knows by its id.
 */
export function locksOf(locks: LockManager | undefined): Locks {
  if (locks) return { request: (name, held) => locks.request(name, held) as ReturnType<typeof held> };
  const last = new Map<string, Promise<unknown>>();
  return {
    request: (name, held) => {
      const turn = (last.get(name) ?? Promise.resolve()).then(held);
      last.set(
        name,
        turn.catch(() => {}),
      );
      return turn;
    },
  };
}

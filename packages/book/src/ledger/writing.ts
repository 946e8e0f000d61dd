import type { Body, Kind } from './bodies.ts';
import { BODY_VERSION, type Entry, entryHash } from './entry.ts';

/** Who writes, with which clock reading and which fresh id: what a pure function cannot know. */
export interface Pen {
  readonly job: string;
  readonly device: string;
  readonly who: string;
  /** ISO 8601 with offset. */
  readonly at: string;
  /** UUID version 7. */
  readonly id: string;
}

/**
 * The next entry of a device, after everything in `ledger`.
 *
 * @param ledger  every entry of the job that the writer has folded, in any order
 */
export function nextEntry<K extends Kind>(ledger: readonly Entry[], pen: Pen, kind: K, body: Body<K>): Entry {
  const seen: Record<string, number> = {};
  let tick = 0;
  let own: Entry | undefined;
  for (const entry of ledger) {
    seen[entry.device] = Math.max(seen[entry.device] ?? 0, entry.n);
    tick = Math.max(tick, entry.tick);
    if (entry.device === pen.device && (own === undefined || entry.n > own.n)) own = entry;
  }
  return {
    id: pen.id,
    job: pen.job,
    device: pen.device,
    n: (own?.n ?? 0) + 1,
    prev: own ? entryHash(own) : null,
    seen,
    tick: tick + 1,
    at: pen.at,
    who: pen.who,
    kind,
    v: BODY_VERSION,
    body: body as Record<string, unknown>,
  };
}

import { type Body, contentHash, type Entry, type Kind, newEntryId, nextEntry } from '@fettle/book';
import type { DataDirectory } from './data-directory.ts';
import { failed, type Issue, type Outcome, ok } from './outcome.ts';
import type { Parcel } from './store.ts';

/** Something to be entered, of any kind. */
export type Draft = {
  [K in Kind]: {
    readonly kind: K;
    readonly body: Body<K>;
    /** Its id when that is settled beforehand: entered twice, it is there once. Otherwise a fresh one is taken. */
    readonly id?: string;
  };
}[Kind];

/** Who enters, in which job, and what this function cannot know. */
export interface Writer {
  readonly job: string;
  readonly who: string;
  /** Unix time [ms]. */
  readonly now: number;
  /** So many random bytes. */
  readonly random: (count: number) => Uint8Array;
}

/**
 * Enters drafts after everything the job has, all of them or none, as the one writer of the data directory.
 *
 * @param alongside  spec sheets and photos that the drafts speak of
 * @returns the entries, one per draft; a draft whose settled id is already there with the same kind and body gives
 *          the entry that is there
 */
export function written(
  directory: DataDirectory,
  writer: Writer,
  drafts: readonly Draft[],
  alongside: Pick<Parcel, 'sheets' | 'photos'> = {},
): Promise<Outcome<readonly Entry[]>> {
  return directory.writing(async () => {
    const there = await directory.store.entries(writer.job);
    if (!there.ok) return there;
    const ledger = [...there.value.entries];
    const byId = new Map(ledger.map((entry) => [entry.id, entry]));
    const entries: Entry[] = [];
    const fresh: Entry[] = [];
    for (const [index, draft] of drafts.entries()) {
      const already = draft.id === undefined ? undefined : byId.get(draft.id);
      if (already) {
        if (!says(already, draft)) return failed(idReused(draft, index));
        entries.push(already);
        continue;
      }
      const entry = nextEntry(
        ledger,
        {
          job: writer.job,
          device: directory.device,
          who: writer.who,
          at: new Date(writer.now).toISOString(),
          // A millisecond apart, so that the ids of one batch sort as they were written.
          id: draft.id ?? newEntryId(writer.now + index, writer.random(10)),
        },
        draft.kind,
        draft.body,
      );
      entries.push(entry);
      fresh.push(entry);
      ledger.push(entry);
      byId.set(entry.id, entry);
    }
    const kept = await directory.store.append({ ...alongside, entries: fresh });
    return kept.ok ? ok(entries) : kept;
  });
}

function says(entry: Entry, draft: Draft): boolean {
  return entry.kind === draft.kind && contentHash(entry.body) === contentHash(draft.body);
}

function idReused(draft: Draft, index: number): Issue {
  return {
    code: 'entry/id-reused',
    at: `/${index}/id`,
    got: `another entry with the id ${draft.id}`,
    wanted: 'a new id for a new entry',
    message: `Entry ${draft.id} is already in the job with other content. Nothing was written; leave the id out to enter this beside it.`,
  };
}

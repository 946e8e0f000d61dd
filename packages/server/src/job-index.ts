import { type Entry, inOrder } from '@fettle/book';
import { type Outcome, ok } from '@fettle/core';
import type { Store } from '@fettle/store';

/** What is worth knowing of a job without folding it. */
export interface JobKnown {
  readonly id: string;
  readonly title: string;
  readonly entries: number;
  /** When it was opened, by the clock of who opened it; null while its opening is not here. */
  readonly opened: string | null;
  /** The store's sequence number of its last entry. */
  readonly last: number;
}

/** A writer who never pauses is not waited for. */
const MOST_LOOKS = 20;

type Listener = (moved: readonly JobKnown[]) => void;

/**
 * The jobs of a store, kept up with by reading only what is new: whoever wrote it, this process or another.
 * Sequence numbers run through all jobs of a store, so that one number says up to where a listener has heard.
 */
export class JobIndex {
  readonly #store: Store;
  readonly #known = new Map<string, { entries: number; shown: JobKnown; opening?: Entry }>();
  readonly #listeners = new Set<Listener>();
  #refreshing: Promise<Outcome<readonly JobKnown[]>> | undefined;
  #waiting: Promise<Outcome<readonly JobKnown[]>> | undefined;

  constructor(store: Store) {
    this.#store = store;
  }

  get listeners(): number {
    return this.#listeners.size;
  }

  /** @returns how to stop listening */
  listen(listener: Listener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Every job as the store has it at some moment after this call. Calls made meanwhile share one look. */
  refreshed(): Promise<Outcome<readonly JobKnown[]>> {
    // One under way may have looked before the caller wrote; the one after it has not begun.
    if (this.#refreshing) {
      this.#waiting ??= this.#refreshing.then(() => {
        this.#waiting = undefined;
        return this.#begun();
      });
      return this.#waiting;
    }
    return this.#begun();
  }

  #begun(): Promise<Outcome<readonly JobKnown[]>> {
    this.#refreshing = this.#refresh().finally(() => {
      this.#refreshing = undefined;
    });
    return this.#refreshing;
  }

  async #refresh(): Promise<Outcome<readonly JobKnown[]>> {
    const moved = new Map<string, JobKnown>();
    // Until one look finds nothing new: what is told then reaches up to one number in every job, and a listener who
    // comes back with that number has missed nothing.
    for (let look = 0; ; look++) {
      const counts = await this.#store.jobs();
      if (!counts.ok) return counts;
      const behind = counts.value.filter(({ job, entries }) => this.#known.get(job)?.entries !== entries);
      if (behind.length === 0 || look === MOST_LOOKS) {
        const heard = [...moved.values()].sort((a, b) => a.last - b.last);
        if (heard.length > 0) for (const listener of this.#listeners) listener(heard);
        return ok(counts.value.flatMap(({ job }) => this.#known.get(job)?.shown ?? []));
      }
      for (const { job } of behind) {
        const read = await this.#readOn(job);
        if (!read.ok) return read;
        moved.set(job, read.value);
      }
    }
  }

  async #readOn(job: string): Promise<Outcome<JobKnown>> {
    const before = this.#known.get(job);
    const fresh = await this.#store.entries(job, { after: before?.shown.last ?? 0 });
    if (!fresh.ok) return fresh;
    const opening = [...(before?.opening ? [before.opening] : []), ...fresh.value.entries]
      .filter(({ kind }) => kind === 'job-opened')
      .sort(inOrder)[0];
    const entries = (before?.entries ?? 0) + fresh.value.entries.length;
    const shown = {
      id: job,
      title: String(opening?.body.title ?? 'untitled'),
      entries,
      opened: opening?.at ?? null,
      last: fresh.value.last,
    };
    this.#known.set(job, { entries, shown, ...(opening && { opening }) });
    return ok(shown);
  }
}

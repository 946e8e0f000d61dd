import { type Book, type Entry, foldedBook, nextEntry, readSheet, type SpecSheet } from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import { type DataDirectory, type Draft, written } from '@fettle/store';

/** One job, opened to be read and written: the door every command goes through. */
export interface Bench {
  readonly job: string;
  book(): Book;
  write(drafts: readonly Draft[]): Promise<Outcome<readonly Entry[]>>;
}

type Hand = {
  readonly who: string;
  readonly now: () => number;
  readonly random: (count: number) => Uint8Array;
};

/** The spec sheets a ledger speaks of, as far as the store has them. */
async function sheetsOf(
  directory: DataDirectory,
  entries: readonly Entry[],
): Promise<Outcome<ReadonlyMap<string, SpecSheet>>> {
  const sheets = new Map<string, SpecSheet>();
  const hashes = new Set(
    entries.flatMap(({ kind, body }) => (kind === 'spec-adopted' ? [String(body.sheet)] : [])),
  );
  for (const hash of hashes) {
    const kept = await directory.store.sheet(hash);
    if (!kept.ok) return kept;
    if (kept.value === undefined) continue;
    const sheet = readSheet(kept.value);
    if (!sheet.ok) return sheet;
    sheets.set(hash, sheet.value);
  }
  return ok(sheets);
}

/** A job in a data directory. */
export async function storedBench(
  directory: DataDirectory,
  job: string,
  hand: Hand,
): Promise<Outcome<Bench>> {
  const load = async (): Promise<Outcome<Book>> => {
    const kept = await directory.store.entries(job);
    if (!kept.ok) return kept;
    const sheets = await sheetsOf(directory, kept.value.entries);
    return sheets.ok ? ok(foldedBook(kept.value.entries, sheets.value, readSheet)) : sheets;
  };
  const first = await load();
  if (!first.ok) return first;
  let book = first.value;
  return ok({
    job,
    book: () => book,
    write: async (drafts) => {
      const entries = await written(
        directory,
        { job, who: hand.who, now: hand.now(), random: hand.random },
        drafts,
      );
      if (!entries.ok) return entries;
      const again = await load();
      if (!again.ok) return again;
      book = again.value;
      return entries;
    },
  });
}

/** How a ledger kept in memory writes: everything a clock and chance would give is settled. */
export interface SettledHand {
  readonly who: string;
  readonly device: string;
  /** The id and the clock of the nth entry, counted from 1. */
  readonly id: (n: number) => string;
  readonly at: (n: number) => string;
}

/** A job in memory, for a ledger that has to come out the same every time. */
export function memoryBench(
  job: string,
  sheets: ReadonlyMap<string, SpecSheet>,
  hand: SettledHand,
): Bench & { readonly entries: () => readonly Entry[] } {
  const ledger: Entry[] = [];
  let book: Book | undefined;
  return {
    job,
    entries: () => ledger,
    book: () => {
      book ??= foldedBook(ledger, sheets, readSheet);
      return book;
    },
    write: async (drafts) => {
      const fresh = drafts.map(({ kind, body }) => {
        const n = ledger.length + 1;
        const entry = nextEntry(
          ledger,
          { job, device: hand.device, who: hand.who, at: hand.at(n), id: hand.id(n) },
          kind,
          body,
        );
        ledger.push(entry);
        return entry;
      });
      book = undefined;
      return ok(fresh);
    },
  };
}

/** A job by its id, the beginning of it, or a word of its title. */
export async function jobNamed(directory: DataDirectory, name: string): Promise<Outcome<string>> {
  const jobs = await titledJobs(directory);
  if (!jobs.ok) return jobs;
  const wanted = name.toLowerCase();
  const exact = jobs.value.find(({ job }) => job === wanted);
  if (exact) return ok(exact.job);
  const found = jobs.value.filter(
    ({ job, title }) =>
      (wanted.length >= 4 && job.startsWith(wanted)) ||
      (wanted.trim() !== '' && title.toLowerCase().includes(wanted)),
  );
  if (found.length === 1) return ok(found[0]!.job);
  const offered = (found.length > 0 ? found : jobs.value).map(({ job, title }) => `${title} (${job})`);
  return failed({
    code: found.length > 1 ? 'job/ambiguous' : 'job/unknown',
    at: 'job',
    got: name,
    wanted: offered.length > 0 ? offered.join('; ') : 'a job; there is none yet',
    message:
      offered.length === 0
        ? `There is no job yet. Start one with "fettle new".`
        : `"${name}" names ${found.length > 1 ? `${found.length} jobs` : 'no job'}. Take one of: ${offered.join('; ')}.`,
  });
}

export interface TitledJob {
  readonly job: string;
  readonly title: string;
  readonly entries: number;
  readonly opened?: string;
}

export async function titledJobs(directory: DataDirectory): Promise<Outcome<TitledJob[]>> {
  const jobs = await directory.store.jobs();
  if (!jobs.ok) return jobs;
  const titled: TitledJob[] = [];
  for (const { job, entries } of jobs.value) {
    const kept = await directory.store.entries(job);
    if (!kept.ok) return kept;
    const opening = kept.value.entries.find(({ kind }) => kind === 'job-opened');
    titled.push({
      job,
      entries,
      title: String(opening?.body.title ?? 'untitled'),
      ...(opening && { opened: opening.at }),
    });
  }
  return ok(titled);
}

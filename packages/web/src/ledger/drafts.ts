import { type Place, placeText } from '@fettle/book';
import type { Issue } from '@fettle/core';
import type { Database } from './database.ts';

/** What somebody has typed at one place and not yet entered. */
export interface ReadingDraft {
  readonly characteristic: string;
  readonly place: Place;
  readonly text: string;
  /** Leaves tried, by their size as owned. */
  readonly leaves: Readonly<Record<string, 'goes' | 'stops'>>;
  /** What was first typed, before the program asked about it. */
  readonly firstSaid?: string;
  readonly question?: Issue;
  /** Milliseconds of this device's clock, to show the latest first. */
  readonly touched: number;
}

const keyOf = (job: string, characteristic: string, place: Place): string =>
  `${job} ${characteristic}@${placeText(place)}`;

export const isEmpty = ({ text, leaves }: ReadingDraft): boolean =>
  text === '' && Object.keys(leaves).length === 0;

/** Keeps a draft at each key, so that a tab killed in the middle of a number comes back to it. */
export async function draftKept(db: Database, job: string, draft: ReadingDraft): Promise<void> {
  const key = keyOf(job, draft.characteristic, draft.place);
  if (isEmpty(draft)) await db.delete('drafts', key);
  else await db.put('drafts', draft, key);
}

export const draftAt = async (
  db: Database,
  job: string,
  characteristic: string,
  place: Place,
): Promise<ReadingDraft | undefined> =>
  (await db.get('drafts', keyOf(job, characteristic, place))) as ReadingDraft | undefined;

/** Every unfinished draft of a job, the latest first. */
export async function draftsOf(db: Database, job: string): Promise<ReadingDraft[]> {
  const range = IDBKeyRange.bound(`${job} `, `${job} \uffff`);
  const drafts = (await db.getAll('drafts', range)) as ReadingDraft[];
  return drafts.sort((a, b) => b.touched - a.touched);
}

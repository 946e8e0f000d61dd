import { type Place, placeText } from '@fettle/book';
import type { Issue } from '@fettle/core';
import { keepAtOnce, keptAtOnce, keysAtOnce } from './at-once.ts';
import type { Database } from './database.ts';

/** What somebody has typed at one place and not yet entered. */
export interface ReadingDraft {
  readonly characteristic: string;
  readonly place: Place;
  readonly text: string;
  /** Leaves tried, by their size as owned. */
  readonly leaves: Readonly<Record<string, 'goes' | 'drags' | 'stops'>>;
  /** Leaves laid together for it, `0.0015 + 0.004 in`: each a rung of its own. */
  readonly stacks?: readonly string[];
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

const AT_ONCE = 'fettle draft ';

/** Keeps a draft at each key, so that a tab killed in the middle of a number comes back to it. */
export function draftKept(db: Database, job: string, draft: ReadingDraft): Promise<void> {
  const key = keyOf(job, draft.characteristic, draft.place);
  // An emptied one is kept at once too: what the database still has must not come back in its stead.
  return keepAtOnce(`${AT_ONCE}${key}`, draft, () =>
    isEmpty(draft) ? db.delete('drafts', key) : db.put('drafts', draft, key),
  );
}

/** Of a draft in the database and the copy kept at once, the one typed last; nothing where that was emptied. */
function latest(kept: ReadingDraft | undefined, atOnce: ReadingDraft | undefined): ReadingDraft | undefined {
  const last = atOnce && !(kept && kept.touched > atOnce.touched) ? atOnce : kept;
  return last && isEmpty(last) ? undefined : last;
}

export async function draftAt(
  db: Database,
  job: string,
  characteristic: string,
  place: Place,
): Promise<ReadingDraft | undefined> {
  const key = keyOf(job, characteristic, place);
  const kept = (await db.get('drafts', key)) as ReadingDraft | undefined;
  return latest(kept, keptAtOnce(`${AT_ONCE}${key}`) as ReadingDraft | undefined);
}

/** Every unfinished draft of a job, the latest first. */
export async function draftsOf(db: Database, job: string): Promise<ReadingDraft[]> {
  const kept = (await db.getAll('drafts', IDBKeyRange.bound(`${job} `, `${job} \uffff`))) as ReadingDraft[];
  const atOnce = keysAtOnce(`${AT_ONCE}${job} `).map((key) => keptAtOnce(key) as ReadingDraft);
  const byPlace = new Map<string, ReadingDraft[]>();
  for (const draft of [...kept, ...atOnce]) {
    const key = keyOf(job, draft.characteristic, draft.place);
    byPlace.set(key, [...(byPlace.get(key) ?? []), draft]);
  }
  return [...byPlace.values()]
    .flatMap(([one, other]) => latest(one, other) ?? [])
    .sort((a, b) => b.touched - a.touched);
}

import {
  type Assessed,
  type Assessment,
  asFittedNow,
  assessed as assessedAlone,
  assessment,
  type Book,
  type Entry,
  foldedBook,
  jointMoments,
  type SpecSheet,
} from '@fettle/book';
import { failed, type Outcome } from '@fettle/core';
import { computed, effect, signal } from '@preact/signals';
import { entriesOf } from '../ledger/database.ts';
import { entriesFetched, sheetsChecked, sheetsFor, sheetsNamed } from '../ledger/fetching.ts';
import { newsOf } from '../ledger/live.ts';
import { outboxSent, type Sending } from '../ledger/outbox.ts';
import { type Draft, written } from '../ledger/writing.ts';
import { afterPaint } from './after-paint.ts';
import { clock } from './clock.ts';
import { desk, who } from './desk.ts';
import { grewByReadings } from './grown.ts';
import { heavy } from './heavy.ts';

/** The job on the bench. */
export const job = signal<string | undefined>(undefined);
const ledger = signal<readonly Entry[]>([]);
const sheets = signal<ReadonlyMap<string, SpecSheet>>(new Map());
/** Whether what this browser has of the job has been read. */
export const ready = signal(false);
/** How the last sending went; undefined until one was tried. */
export const sending = signal<Sending | undefined>(undefined);

const folded = (): Book => foldedBook(ledger.value, sheets.value, heavy.value.readSheet);
/** How many joints have cured or lain open too long by the device's clock: only then does a gate change by itself. */
const ripened = computed(() => jointMoments(book.value).filter((moment) => moment <= clock.value).length);

const judged = (now: Book): Assessment => {
  void ripened.value;
  return assessment(now, asFittedNow(now), heavy.value.catalogue, Date.now());
};

/** Until the checks are loaded, an amendment that they would refuse must not stop the page: it shows no job yet. */
function orNothingYet<T>(worked: () => T, nothing: () => T): T {
  if (heavy.value.loaded) return worked();
  try {
    return worked();
  } catch {
    return nothing();
  }
}
const noBook = (): Book => foldedBook([], new Map(), heavy.value.readSheet);

/** Folded once a change, never once a drawing. */
export const book = computed<Book>(() => orNothingYet(folded, noBook));

/** The book that was judged whole last; none before a job is here. */
const judgedBook = signal<Book | undefined>(undefined);
let judgedLedger: readonly Entry[] = [];
/** Judging a whole engine takes longer than a frame: a reading's own verdict is shown first, all the others after it. */
effect(() => {
  const now = book.value;
  const entries = ledger.peek();
  if (!grewByReadings(judgedLedger, entries)) {
    judgedLedger = entries;
    judgedBook.value = now;
    return;
  }
  afterPaint(() => {
    judgedLedger = ledger.peek();
    judgedBook.value = book.peek();
  });
});
/** False for the frame in which a reading is in the book and not all is judged again yet. */
export const allJudged = computed(() => judgedBook.value === undefined || judgedBook.value === book.value);

export const assessed = computed<Assessment>(() =>
  orNothingYet(
    () => judged(judgedBook.value ?? book.value),
    () => judged(noBook()),
  ),
);

const judgedAlone = computed(() => {
  void book.value;
  return new Map<string, readonly Assessed[]>();
});
/** The judgements of one characteristic, by the book as it is now. */
export function judgementsNow(characteristic: string): readonly Assessed[] {
  const now = book.value;
  const kept = judgedAlone.value.get(characteristic);
  if (kept) return kept;
  const found = assessedAlone(now, asFittedNow(now), heavy.value.catalogue, characteristic);
  judgedAlone.value.set(characteristic, found);
  return found;
}

const channel = new BroadcastChannel('fettle-ledger');

/** Puts a job on the bench: first what this browser has, then what the server has besides. */
export async function openJob(id: string): Promise<void> {
  if (job.value === id) return;
  job.value = id;
  ready.value = false;
  ledger.value = [];
  sheets.value = new Map();
  await fromHere(id);
  if (ledger.value.length > 0 && allSheetsHere()) ready.value = true;
  await settled(id);
  if (job.value === id) ready.value = true;
}

const allSheetsHere = (): boolean => sheetsNamed(ledger.value).every((hash) => sheets.value.has(hash));

async function fromHere(id: string, had: ReadonlyMap<string, SpecSheet> = sheets.value): Promise<void> {
  const { db } = desk();
  const entries = await entriesOf(db, id);
  const known = new Map<string, SpecSheet>(had);
  for (const hash of sheetsNamed(entries)) {
    const kept = known.has(hash) ? undefined : await db.get('sheets', hash);
    if (kept) known.set(hash, kept.sheet);
  }
  if (job.value !== id) return;
  if (known.size !== sheets.value.size || had !== sheets.value) sheets.value = known;
  ledger.value = entries;
}

let settling: Promise<void> | undefined;
let again = false;

/** Sends what waits and fetches what is new; calls that come meanwhile are one more round. */
export function settled(id = job.value): Promise<void> {
  if (settling) {
    again = true;
    return settling;
  }
  settling = round(id).finally(() => {
    settling = undefined;
    if (again) {
      again = false;
      void settled();
    }
  });
  return settling;
}

async function round(id: string | undefined): Promise<void> {
  const { db, server, hand } = desk();
  try {
    sending.value = await outboxSent(db, server, hand.locks);
    if (id === undefined) return;
    const fetched = await entriesFetched(db, server, id);
    if (fetched === 'offline' || fetched === 'stranger')
      sending.value = { state: fetched, left: await db.count('outbox') };
    if (fetched === 'new') {
      await fromHere(id);
      // What one tab fetched no other is given again: all of them read the same store.
      channel.postMessage(id);
    }
    if (job.value === id && !allSheetsHere()) {
      const found = await sheetsFor(db, server, ledger.value, {
        byShape: !heavy.value.loaded,
        read: async (json) => (await import('./sheet-reading.ts')).readSheet(json),
      });
      if (job.value === id) sheets.value = found;
    }
  } catch {
    // The browser would not keep what came: it is fetched again at the next round, and nothing of ours is lost.
    sending.value = { state: 'unable', left: 0, words: 'This browser cannot keep what the server sent.' };
  }
}

/** The checks have come: sheets that were believed until now are held to them. */
export async function checkSheets(): Promise<void> {
  const any = await sheetsChecked(desk().db, async (json) => heavy.value.readSheet(json)).catch(
    // Not to be written just now: they are checked again when the page next opens.
    () => false,
  );
  if (any && job.value !== undefined) await fromHere(job.value, new Map());
}

/** Adopts another sheet from now on. */
export function adopt(sheet: SpecSheet, hash: string): Promise<Outcome<readonly Entry[]>> {
  sheets.value = new Map(sheets.value).set(hash, sheet);
  return write([{ kind: 'spec-adopted', body: { sheet: hash, title: sheet.title } }], sheet);
}

/** Makes entries. What comes back is kept in this browser; sending it goes on by itself. */
export async function write(drafts: readonly Draft[], sheet?: SpecSheet): Promise<Outcome<readonly Entry[]>> {
  const id = job.value;
  if (id === undefined || who.value.trim() === '')
    return failed({
      code: 'who/missing',
      at: 'who',
      got: 'no name',
      wanted: 'who is writing',
      message: 'Who is writing? The book names its writers. Give your name once; it is remembered.',
    });
  const entries = await written(
    desk().hand,
    { job: id, who: who.value.trim() },
    drafts,
    sheet && { json: sheet, sheet },
  );
  if (!entries.ok) return entries;
  if (job.value === id) {
    const here = new Set(ledger.value.map((entry) => entry.id));
    ledger.value = [...ledger.value, ...entries.value.filter((entry) => !here.has(entry.id))];
  }
  channel.postMessage(id);
  void settled(id);
  return entries;
}

/** Strikes an entry with its reason. */
export const strike = (entry: string, why: string): Promise<Outcome<readonly Entry[]>> =>
  write([{ kind: 'strike', body: { entry, why } }]);

/** From now on hears what other tabs and other devices write. */
export function listen(): void {
  channel.addEventListener('message', ({ data }) => {
    if (data === job.value) void fromHere(job.value!);
  });
  newsOf(() => void settled());
}

/** The title of the tab says which engine lies on the bench. */
export function titleTab(): void {
  effect(() => {
    const title = book.value.opened?.body.title;
    document.title = title ? `${title} · Fettle` : 'Fettle';
  });
}

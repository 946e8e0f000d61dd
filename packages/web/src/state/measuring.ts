import {
  admittedReading,
  type Body,
  type Characteristic,
  expands,
  isQuestion,
  leavesWords,
  type Place,
  positionAt,
  type ReadingSaid,
} from '@fettle/book';
import { type Issue, parseQuantity } from '@fettle/core';
import { computed, signal } from '@preact/signals';
import { draftAt, draftKept, isEmpty, type ReadingDraft } from '../ledger/drafts.ts';
import { keepingFault } from '../ledger/fault.ts';
import { bracketTried, leavesOwned, type OwnedLeaf, rungsOf } from '../parts/leaves.ts';
import { desk, setSetting, settings } from './desk.ts';
import { book, job, strike, write } from './job.ts';
import { judgementAt, type Step, statusAt } from './steps.ts';
import { unitOf } from './units.ts';

/** What is being said at the place on the bench; every key of it is kept. */
export const draft = signal<ReadingDraft | undefined>(undefined);
export const issues = signal<readonly Issue[]>([]);
/** Whether the place waits for a reading; otherwise it shows what it says. */
export const saying = signal(true);
/** How warm part and instrument are, where that matters; as said until it is said otherwise. */
export const warmth = signal<{ readonly part: string; readonly instrument: string }>({
  part: '',
  instrument: '',
});
/** What this tab entered last, for the pedal that takes it back. */
export const lastMade = signal<{ readonly entry: string; readonly words: string } | undefined>(undefined);

const BLANK = { text: '', leaves: {} };

/** Puts a place on the bench, with what had been typed there before. */
export async function approach({ characteristic, place }: Step): Promise<void> {
  const id = job.value;
  const fresh: ReadingDraft = { characteristic: characteristic.id, place, ...BLANK, touched: Date.now() };
  draft.value = fresh;
  issues.value = [];
  saying.value = statusAt(judgementAt(characteristic, place), place) === 'missing';
  if (id === undefined) return;
  const kept = await draftAt(desk().db, id, characteristic.id, place).catch(() => undefined);
  if (!kept || draft.value !== fresh) return;
  draft.value = kept;
  issues.value = kept.question ? [kept.question] : [];
  saying.value = true;
}

async function changed(change: Partial<ReadingDraft>): Promise<void> {
  const before = draft.value;
  const id = job.value;
  if (!before || id === undefined) return;
  const { question: _question, ...rest } = before;
  const next: ReadingDraft = { ...rest, ...change, touched: Date.now() };
  draft.value = next;
  if (!change.question) issues.value = [];
  saying.value = true;
  try {
    await draftKept(desk().db, id, next);
  } catch (error) {
    issues.value = [keepingFault(error)];
  }
}

export const typed = (text: string): Promise<void> => changed({ text: text.slice(0, 60) });
export const pressed = (key: string): Promise<void> => typed((draft.value?.text ?? '') + key);
export const takenBack = (): Promise<void> => typed((draft.value?.text ?? '').slice(0, -1));

const AFTER = { goes: 'stops', stops: 'drags', drags: undefined } as const;

/** A tap on a rung: goes, does not, goes and drags, not tried: the two common answers first. */
export function leafTapped(leaf: string): Promise<void> {
  const { [leaf]: state, ...others } = draft.value?.leaves ?? {};
  const next = state === undefined ? ('goes' as const) : AFTER[state];
  return changed({ leaves: next ? { ...others, [leaf]: next } : others });
}

const instrumentKey = (characteristic: Characteristic): string =>
  `instrument ${job.value ?? ''} ${characteristic.with ?? characteristic.id}`;

/** Instruments whose uncertainty is one of this kind of quantity, the usual type first. */
export function instrumentsFor(characteristic: Characteristic): Body<'instrument-declared'>[] {
  const { kind } = characteristic;
  if (kind === 'seen') return [];
  const fits = [...book.value.instruments.values()]
    .map(({ body }) => body)
    .filter(
      ({ uncertainty: { expanded } }) => expanded.trim().endsWith('%') || parseQuantity(expanded, kind).ok,
    );
  const usual = (type: string): number => (type === characteristic.with ? 0 : 1);
  return fits.sort((a, b) => usual(a.type) - usual(b.type));
}

/** The instrument as remembered, else the only usual one. */
export function instrumentOf(characteristic: Characteristic): Body<'instrument-declared'> | undefined {
  const offered = instrumentsFor(characteristic);
  const remembered = settings.value[instrumentKey(characteristic)];
  const known = offered.find(({ instrument }) => instrument === remembered);
  if (known) return known;
  const usual = offered.filter(({ type }) => type === characteristic.with);
  // Of several sets of leaves the first declared lies open; any other is one tap away.
  return usual.length === 1 || usual[0]?.leaves ? usual[0] : undefined;
}

export const takeInstrument = (characteristic: Characteristic, id: string): Promise<void> =>
  setSetting(instrumentKey(characteristic), id);

const measurandKey = (id: string): string => `measurand ${job.value ?? ''} ${id}`;
export const measurandOf = (characteristic: Characteristic): string | undefined => {
  const said = settings.value[measurandKey(characteristic.id)];
  if (typeof said === 'string') return said;
  return characteristic.ask_measurand ? undefined : characteristic.measurand;
};
export const takeMeasurand = (characteristic: Characteristic, way: string): Promise<void> =>
  setSetting(measurandKey(characteristic.id), way);

/** Leaves of the instrument chosen; empty where it has none. */
export const leavesAt = (characteristic: Characteristic): OwnedLeaf[] =>
  leavesOwned(instrumentOf(characteristic)?.leaves ?? []);

/** Those leaves, and the stacks laid of them for this reading. */
const rungsAt = (characteristic: Characteristic, { stacks }: ReadingDraft): OwnedLeaf[] => {
  const owned = leavesAt(characteristic);
  return owned.length === 0 ? owned : rungsOf(owned, stacks ?? []);
};

/** Lays leaves together: one rung more, not tried yet. */
export function leavesLaid(leaves: readonly string[]): Promise<void> {
  const stack = leavesWords.stackWords(leaves);
  const stacks = draft.value?.stacks ?? [];
  return stacks.includes(stack) ? Promise.resolve() : changed({ stacks: [...stacks, stack] });
}

/** What is typed, with the unit that stands beside the field unless it brings its own. */
export function withUnit(characteristic: Characteristic, text: string): string {
  const unit = unitOf(characteristic);
  return unit === undefined || /[a-z"°%µ]/i.test(text) ? text.trim() : `${text.trim()} ${unit}`;
}

function said(characteristic: Characteristic, now: ReadingDraft, confirmed: boolean): ReadingSaid {
  const owned = rungsAt(characteristic, now);
  const of = (...answers: readonly string[]) =>
    owned.filter(({ text }) => answers.includes(now.leaves[text] ?? ''));
  const goes = of('goes', 'drags').at(-1)?.text;
  const { part, instrument } = warmth.value;
  const degrees = (text: string) => (text === '' ? undefined : /[a-z]/i.test(text) ? text : `${text} degC`);
  const matters = expands(characteristic) && (part !== '' || instrument !== '');
  return {
    characteristic: characteristic.id,
    place: now.place,
    instrument: instrumentOf(characteristic)?.instrument,
    measurand: measurandOf(characteristic),
    ...(owned.length > 0
      ? { goes, stops: of('stops')[0]?.text, drags: goes !== undefined && now.leaves[goes] === 'drags' }
      : { value: withUnit(characteristic, now.text) }),
    ...(matters && { temperature: { part: degrees(part), instrument: degrees(instrument) } }),
    ...(now.firstSaid !== undefined && { firstSaid: now.firstSaid }),
    confirmed,
  };
}

const nothingTyped = (leaves: boolean): Issue => ({
  code: 'reading/nothing-typed',
  at: 'value',
  got: 'nothing',
  wanted: 'a reading',
  message: leaves
    ? 'No leaf is marked yet. Tap a leaf that goes, or one that does not.'
    : 'Nothing is typed yet. Type what the instrument says.',
});

export const canEnter = computed(() => draft.value !== undefined && !isEmpty(draft.value));

/** Enters what is typed; what keeps it from being entered stands beside the field, and what was typed stays. */
export async function enter(confirmed = false): Promise<boolean> {
  const now = draft.value;
  const characteristic = now && book.value.characteristics.get(now.characteristic);
  if (!now || !characteristic) return false;
  const owned = rungsAt(characteristic, now);
  if (owned.length > 0 ? Object.keys(now.leaves).length === 0 : now.text.trim() === '') {
    issues.value = [nothingTyped(owned.length > 0)];
    return false;
  }
  const contradiction = owned.length > 0 ? bracketTried(owned, now.leaves) : undefined;
  if (contradiction && !contradiction.ok) {
    issues.value = contradiction.issues;
    return false;
  }
  const admitted = admittedReading(book.value, said(characteristic, now, confirmed));
  if (!admitted.ok) {
    const question = admitted.issues.find(isQuestion);
    if (question) await changed({ question, firstSaid: now.firstSaid ?? withUnit(characteristic, now.text) });
    issues.value = admitted.issues;
    return false;
  }
  const entries = await write([{ kind: 'reading', body: admitted.value }]);
  if (!entries.ok) {
    issues.value = entries.issues;
    return false;
  }
  made(entries.value[0]!.id, admitted.value.value ?? leavesWords.leafAnswerWords(admitted.value));
  return true;
}

/** After an entry: the place is clean again and shows what it says. */
function made(entry: string, words: string): void {
  const now = draft.value;
  const id = job.value;
  lastMade.value = { entry, words };
  if (now && id !== undefined) {
    const { firstSaid: _first, question: _question, stacks: _stacks, ...rest } = now;
    const clean: ReadingDraft = { ...rest, ...BLANK };
    draft.value = clean;
    void draftKept(desk().db, id, clean).catch(() => {});
  }
  issues.value = [];
  saying.value = false;
}

/** Enters what was seen. */
export async function enterSeen(
  characteristic: Characteristic,
  place: Place,
  asWanted: boolean,
): Promise<boolean> {
  const text = draft.value?.text.trim() ?? '';
  const found = text === '' && asWanted ? (characteristic.wanted ?? 'as wanted') : text;
  if (found === '') {
    issues.value = [
      {
        code: 'seen/nothing-said',
        at: 'found',
        got: 'nothing',
        wanted: 'what was seen',
        message: 'Say what you see: a stranger must know later why it is not as wanted.',
      },
    ];
    return false;
  }
  const position = characteristic.position && positionAt(characteristic.position, place);
  const state = position && book.value.positions.get(position)?.now?.state;
  if (position !== undefined && state === undefined) {
    issues.value = [
      { code: 'part/none-fitted', at: position, got: 'no part', wanted: 'a part', message: '' },
    ];
    return false;
  }
  const entries = await write([
    {
      kind: 'seen',
      body: {
        characteristic: characteristic.id,
        ...(state !== undefined && { state }),
        ...(Object.keys(place).length > 0 && { place }),
        found: found.slice(0, 500),
        as_wanted: asWanted,
      },
    },
  ]);
  if (!entries.ok) {
    issues.value = entries.issues;
    return false;
  }
  made(entries.value[0]!.id, found);
  return true;
}

/** Takes back what this tab entered last: struck, with the reason that it was a slip. */
export async function undo(): Promise<void> {
  const last = lastMade.value;
  if (!last) return;
  const struck = await strike(last.entry, 'undo at once');
  if (!struck.ok) {
    issues.value = struck.issues;
    return;
  }
  lastMade.value = undefined;
  saying.value = true;
}

/** Enters the part a place belongs to, as it came with the engine. */
export async function partEnteredAsFound(position: string, name: string): Promise<void> {
  const { parts } = book.value;
  let part = position;
  for (let i = 2; parts.has(part); i++) part = `${position}-${i}`;
  const entries = await write([
    { kind: 'part-entered', body: { part, name, condition: 'used' } },
    { kind: 'part-fitted', body: { position, part } },
  ]);
  issues.value = entries.ok ? [] : entries.issues;
}

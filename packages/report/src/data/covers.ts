import type { Book, CoverOnRecord, Gate, Reason } from '@fettle/book';
import { whenWords } from '../words/entry.ts';

/** Reasons of one kind about one characteristic, with their places together. */
export function groupedReasons(book: Book, reasons: readonly Reason[]): string[] {
  const groups = new Map<string, { name: string; tail: string; places: string[] }>();
  for (const { code, about, message } of reasons) {
    const [id = '', place] = about.split('@');
    const name = book.characteristics.get(id)?.name;
    const head = name === undefined ? undefined : `${name}${place === undefined ? '' : `, ${place}`}: `;
    if (name === undefined || head === undefined || !message.startsWith(head)) {
      groups.set(`${code}\n${about}\n${message}`, { name: message, tail: '', places: [] });
      continue;
    }
    const tail = message.slice(head.length);
    const group = groups.get(`${code}\n${id}\n${tail}`) ?? { name, tail, places: [] };
    if (place !== undefined) group.places.push(place);
    groups.set(`${code}\n${id}\n${tail}`, group);
  }
  return [...groups.values()].map(({ name, tail, places }) =>
    tail === '' ? name : `${name}${places.length === 0 ? '' : `, ${places.join(', ')}`}: ${tail}`,
  );
}

const lastWords = (last: Gate['last'], closed: boolean): string =>
  last
    ? `${closed ? 'Closed' : 'Opened'} by ${last.entry.who}, ${whenWords(last.entry.at)}${last.body.why ? `: ${last.body.why}` : ''}`
    : 'Not closed yet.';

const holdLines = (record: CoverOnRecord | undefined, standing: string | undefined) =>
  (record?.holdsPassed ?? []).map((hold) => ({
    who: hold.entry.who,
    when: whenWords(hold.entry.at),
    why: hold.body.why,
    stands: standing === undefined || hold.entry.id === standing,
    known: hold.body.gate.reasons.map(({ message }) => message),
  }));

/** The covers in the order they go on: how each stands, why it is held, and who went past a hold. */
export function coverPages(book: Book, gates: readonly Gate[]) {
  const onSheet = gates.map(({ cover, state, closed, last, passed, reasons, sinceThen }) => ({
    order: String(cover.order),
    name: cover.name,
    hours: `${cover.reopen_hours} h to reopen`,
    state,
    closed,
    caution: cover.caution ?? '',
    last: lastWords(last, closed),
    passed: holdLines(book.covers.get(cover.id), passed?.entry.id ?? ''),
    reasons: groupedReasons(book, reasons),
    count: String(reasons.length),
    since: groupedReasons(book, sinceThen),
  }));
  // The ledger may speak of a cover that no sheet names any more: what was done to it is still told.
  const others = [...book.covers].filter(([id]) => !gates.some(({ cover }) => cover.id === id));
  return [
    ...onSheet,
    ...others.map(([id, record]) => ({
      order: '–',
      name: id,
      hours: 'not on the spec sheet',
      state: 'open' as const,
      closed: record.closed,
      caution: '',
      last: lastWords(record.last, record.closed),
      passed: holdLines(record, undefined),
      reasons: [],
      count: '0',
      since: [],
    })),
  ];
}

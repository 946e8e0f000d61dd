import type { Book, Gate, Reason } from '@fettle/book';
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

/** The covers in the order they go on: how each stands, why it is held, and who went past a hold. */
export function coverPages(book: Book, gates: readonly Gate[]) {
  return gates.map((gate) => {
    const { cover, closed, last, passed, reasons, sinceThen } = gate;
    const record = book.covers.get(cover.id);
    return {
      order: String(cover.order),
      name: cover.name,
      hours: `${cover.reopen_hours} h`,
      state: gate.state,
      closed,
      caution: cover.caution ?? '',
      last: last
        ? `${closed ? 'Closed' : 'Opened'} by ${last.entry.who}, ${whenWords(last.entry.at)}${last.body.why ? `: ${last.body.why}` : ''}`
        : 'Not closed yet.',
      passed: (record?.holdsPassed ?? []).map((hold) => ({
        who: hold.entry.who,
        when: whenWords(hold.entry.at),
        why: hold.body.why,
        stands: hold.entry.id === passed?.entry.id,
        known: hold.body.gate.reasons.map(({ message }) => message),
      })),
      reasons: groupedReasons(book, reasons),
      count: String(reasons.length),
      since: groupedReasons(book, sinceThen),
    };
  });
}

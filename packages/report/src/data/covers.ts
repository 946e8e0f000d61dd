import type { Book, Gate } from '@fettle/book';
import { whenWords } from '../words/entry.ts';

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
      reasons: reasons.map(({ message }) => message),
      since: sinceThen.map(({ message }) => message),
    };
  });
}

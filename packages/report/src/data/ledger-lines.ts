import { type Book, bodyOf, type Entry, isKnown } from '@fettle/book';
import { placeWords, whenWords } from '../words/entry.ts';

/** What an entry says, in the space of a line: its own words, in the order of its body. */
function saying(book: Book, entry: Entry, pages: ReadonlyMap<string, string>): string {
  // Read by its schema, so that what it is about comes first, whatever order it was kept in.
  const body: Readonly<Record<string, unknown>> = isKnown(entry) ? bodyOf(entry) : entry.body;
  const axes =
    book.characteristics.get(String(body.characteristic))?.places ??
    book.sheet?.fasteners.find(({ id }) => id === body.fastener)?.places;
  const place = (value: unknown): string =>
    typeof value === 'object' && value !== null ? placeWords(value as Record<string, string>, axes) : '';
  const parts = Object.entries(body).flatMap(([key, value]): string[] => {
    if (value === undefined || value === '') return [];
    if (key === 'entry' && typeof value === 'string') return [`entry ${pages.get(value) ?? value}`];
    if (key === 'order' && typeof value === 'string') return [`order ${pages.get(value) ?? value}`];
    if (key === 'state' || key === 'mates') return [];
    if (key === 'passes' && Array.isArray(value))
      return [`stands: ${value.map((id) => `entry ${pages.get(String(id)) ?? String(id)}`).join(', ')}`];
    if (key === 'place') return place(value) === '' ? [] : [`at ${place(value)}`];
    if (key === 'temperature') return [temperatureWords(value as { part?: unknown; instrument?: unknown })];
    if (key === 'gate') return [`gate ${String((value as { state?: unknown }).state)}`];
    if (key === 'goes_stack' || key === 'stops_stack')
      return [`as ${(value as readonly string[]).join(' + ')} together`];
    if (key === 'goes' || key === 'stops')
      return [`${String(value)} ${key === 'goes' ? 'goes' : 'does not'}`];
    if (key === 'asked') return [`first said ${String((value as { first_said?: unknown }).first_said)}`];
    if (key === 'sheet' || key === 'sha256') return [`${String(value).slice(0, 12)}…`];
    if (key === 'as_wanted') return [value === true ? 'as wanted' : 'not as wanted'];
    if (key === 'budget') return [`a budget of ${(value as readonly unknown[]).length} lines`];
    if (key === 'settings' && typeof value === 'object') return [Object.values(value as object).join(', ')];
    if (key === 'study' || key === 'check') return [`${key} ${pages.get(String(value)) ?? String(value)}`];
    if (key === 'set_in') return [`set in ${String(value)}`];
    if (key === 'readings' && entry.kind === 'repeat-study')
      return [(value as readonly { value: string }[]).map((one) => one.value).join(', ')];
    if (['opened', 'washed', 'blown', 'seen_through', 'drags', 'blasted'].includes(key))
      return [`${value === true ? '' : 'not '}${key.replace('_', ' ')}`];
    if (key === 'count') return [String(value)];
    if (key === 'good') return [value === true ? 'good' : 'not good'];
    if (key === 'position') return [`at ${String(value)}`];
    if (key === 'part' && value === null) return ['taken out'];
    if (key === 'uncertainty') return [`U ${String((value as { expanded?: unknown }).expanded)}`];
    if (key === 'instrument' && entry.kind !== 'instrument-declared' && entry.kind !== 'instrument-checked')
      return [`with ${String(value)}`];
    if (['repair-offered', 'supply-offered'].includes(entry.kind) && Array.isArray(value))
      return offerWords(key, value);
    if (Array.isArray(value)) return [value.map(String).join(', ')];
    if (key === 'pass' || key === 'of') return [`${key} ${String(value)}`];
    if (typeof value === 'object') return [`${key} ${JSON.stringify(value)}`];
    return [String(value)];
  });
  return short(parts.join(' · '));
}

/** `restores crank.main-clearance to 0.0020 in`: the lists of an offer, each in its own words. */
function offerWords(key: string, list: readonly unknown[]): string[] {
  if (list.length === 0) return [];
  const words = list.map((one) => {
    if (typeof one !== 'object' || one === null) return String(one);
    const { characteristic, repair, value, need, count } = one as Record<string, unknown>;
    if (need !== undefined) return `${String(count)} × ${String(need)}`;
    return `${String(characteristic ?? repair)}${value === undefined ? '' : ` to ${String(value)}`}`;
  });
  return [`${key} ${[...new Set(words)].join(', ')}`];
}

const temperatureWords = ({ part, instrument }: { part?: unknown; instrument?: unknown }): string =>
  [
    part === undefined ? '' : `part at ${String(part)}`,
    instrument === undefined ? '' : `instrument at ${String(instrument)}`,
  ]
    .filter((words) => words !== '')
    .join(', ');

const LONGEST = 160;
const short = (text: string): string => {
  const line = text.replace(/\s+/g, ' ');
  const characters = [...line];
  return characters.length > LONGEST ? `${characters.slice(0, LONGEST).join('')}…` : line;
};

/** Every entry in the order of folding, one line each. Its number is what other pages call it by. */
export const ledgerLines = (book: Book, pages: ReadonlyMap<string, string>) =>
  book.entries.map((entry) => ({
    page: pages.get(entry.id) ?? '',
    when: whenWords(entry.at),
    who: entry.who,
    kind: `${entry.kind.replaceAll('-', ' ')}${isKnown(entry) ? '' : ` (version ${entry.v}, not known)`}`,
    says: saying(book, entry, pages),
    device: `${entry.device} ${entry.n}`,
    struck: book.struck.has(entry.id),
  }));

export const notePages = (book: Book) =>
  book.notes.map(({ entry, body }) => ({
    text: body.text,
    about: body.about ?? '',
    who: entry.who,
    when: whenWords(entry.at),
  }));

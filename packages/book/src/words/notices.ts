import type { Book } from '../fold/book.ts';
import type { Entry } from '../ledger/entry.ts';
import { reopenedNotices } from './reopened.ts';

/**
 * What about the ledger itself a reader must know before believing anything else.
 *
 * @param entry  what an entry is called there, such as `entry 12`
 */
export function noticesOf(book: Book, entry: (id: string) => string = (id) => `entry ${id}`): string[] {
  return [
    ...book.conflicts.map(
      ({ about, entries }) =>
        `Two writers who did not know of each other differ about ${about} (${entries.map(entry).join(', ')}). Neither counts until one is struck or it is decided anew.`,
    ),
    ...book.forks.map(
      ({ device, n, entries }) =>
        `Device ${device} wrote its page ${n} twice (${entries.map(entry).join(', ')}). Both are kept.`,
    ),
    ...reusedNotices(book, entry),
    ...book.broken.map(({ entry: id, device, n, why }) =>
      why === 'predecessor-missing'
        ? `Page ${n - 1} of device ${device} is missing before ${entry(id)}.`
        : `Page ${n} of device ${device} (${entry(id)}) does not follow from the page before it.`,
    ),
    ...book.idleStrikes.map(
      ({ strike, target, why }) =>
        `The strike in ${entry(strike)} of ${entry(target)} has no effect: ${why.replaceAll('-', ' ')}.`,
    ),
    ...book.unknown.map(
      ({ id, kind, v }) =>
        `The ${entry(id)} is of a kind this program does not know: ${kind}, version ${v}. It is kept.`,
    ),
    ...book.missingSheets.map((hash) => `The spec sheet ${hash} is not here.`),
    ...book.problems.map(({ message }) => message),
    ...reopenedNotices(book, entry),
    ...book.readings
      .filter(
        ({ standing }) => standing !== 'counts' && standing !== 'struck' && standing !== 'to-be-taken-again',
      )
      .map(
        ({ entry: { id }, body, standing }) =>
          `The reading of ${body.characteristic} in ${entry(id)} is kept but not judged: ${standing.replaceAll('-', ' ')}.`,
      ),
    ...book.sights
      .filter(({ standing }) => standing !== 'counts' && standing !== 'struck')
      .map(
        ({ entry: { id }, body, standing }) =>
          `What was seen of ${body.characteristic} in ${entry(id)} is kept but not judged: ${standing.replaceAll('-', ' ')}.`,
      ),
  ];
}

/** More than so many are counted and not told one by one. */
const MOST_TOLD = 5;

/** Both sides of what goes by one id, as they were written. */
function reusedNotices({ reused }: Book, entry: (id: string) => string): string[] {
  const said = ({ who, at, kind, body }: Entry): string =>
    `${kind.replaceAll('-', ' ')} by ${who}, ${at.slice(0, 16).replace('T', ' ')}: ${JSON.stringify(body)}`;
  const told = reused
    .slice(0, MOST_TOLD)
    .map(
      ({ id, folded, others }) =>
        `Different entries go by one id (${entry(id)}): something was changed after it was written. What counts here: ${said(folded)}. What also goes by that id: ${others.map(said).join('; ')}. Both are kept; strike ${entry(id)} and enter anew what is true.`,
    );
  const more = reused.length - told.length;
  return more > 0 ? [...told, `And ${more} more entries of which two go by one id.`] : told;
}

import type { Book } from '@fettle/book';

/** What about the ledger itself a reader must know before believing anything else. */
export function notices(book: Book): string[] {
  return [
    ...book.conflicts.map(
      ({ about, entries }) =>
        `! Two writers who did not know of each other differ: ${about} (${entries.join(', ')}). Neither counts until one is struck or it is decided anew.`,
    ),
    ...book.forks.map(({ device, n }) => `! Device ${device} wrote its page ${n} twice. Both are kept.`),
    ...book.broken.map(({ entry, device, n, why }) =>
      why === 'predecessor-missing'
        ? `! Page ${n - 1} of device ${device} is missing before ${entry}.`
        : `! Page ${n} of device ${device} (${entry}) does not follow from the page before it.`,
    ),
    ...book.idleStrikes.map(
      ({ strike, target, why }) =>
        `! The strike ${strike} of ${target} has no effect: ${why.replaceAll('-', ' ')}.`,
    ),
    ...book.unknown.map(
      ({ id, kind, v }) =>
        `! Entry ${id} is of a kind this program does not know: ${kind}, version ${v}. It is kept.`,
    ),
    ...book.missingSheets.map((hash) => `! The spec sheet ${hash.slice(0, 12)}… is not here.`),
    ...book.problems.map(({ message }) => `! ${message}`),
    ...book.readings
      .filter(({ standing }) => standing !== 'counts' && standing !== 'struck')
      .map(
        ({ entry, body, standing }) =>
          `! The reading ${entry.id} of ${body.characteristic} is kept but not judged: ${standing.replaceAll('-', ' ')}.`,
      ),
  ];
}

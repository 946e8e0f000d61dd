import type { Book } from '../fold/book.ts';

const many = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

/** What failed checks put in doubt, a line a check. */
export function reopenedNotices(book: Book, entry: (id: string) => string): string[] {
  return book.instrumentChecks.flatMap(({ entry: { id }, body }) => {
    const doubted = [...book.reopened].flatMap(([taken, check]) => (check === id ? [taken] : []));
    if (doubted.length === 0) return [];
    const among = new Set(doubted);
    const again = book.readings.filter(
      (one) => among.has(one.entry.id) && one.standing === 'to-be-taken-again',
    ).length;
    const corrected = book.readings.filter((one) => among.has(one.entry.id) && one.correction).length;
    const gauged = book.gaugeReadings.filter((one) => among.has(one.entry.id)).length;
    const torques = book.torquePasses.filter((one) => among.has(one.entry.id)).length;
    const what = [
      ...(again > 0 ? [`${many(again, 'reading')} to be taken again, or corrected by what was found`] : []),
      ...(corrected > 0 ? [`${many(corrected, 'reading')} corrected by what was found`] : []),
      ...(gauged > 0 ? [`${many(gauged, 'reading')} of a gauge in doubt`] : []),
      ...(torques > 0 ? [`${many(torques, 'torque')} to be gone over`] : []),
    ];
    if (what.length === 0) return [];
    const name = book.instruments.get(body.instrument)?.body.name ?? body.instrument;
    return [
      `${name} failed its check in ${entry(id)}: against ${body.against} it read ${body.read}. Since its last good check: ${what.join('; ')}.`,
    ];
  });
}

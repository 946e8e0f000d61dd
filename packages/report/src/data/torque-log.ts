import { type Book, placesOf, type TorqueAssessment, torqueDoubtWords } from '@fettle/book';
import { placeWords, whenWords } from '../words/entry.ts';
import { printedQuantity, rangeWords } from '../words/printed-quantity.ts';
import { sourceWords } from '../words/source.ts';

/** Every fastener of the sheet: what it says, what the program says to that, and what was logged. */
export function torquePages(book: Book, torques: readonly TorqueAssessment[]) {
  const decided = (pass: string): string[] =>
    book.torqueDecisions
      .filter(({ body }) => body.passes.includes(pass))
      .map(({ entry, body }) => `let stand by ${entry.who}, ${whenWords(entry.at)}: ${body.why}`);
  return torques.map((torque) => {
    const { fastener, advice, unlogged, proofs, passes } = torque;
    const places = placesOf(book.sheet ?? { axes: {} }, fastener).length;
    const without = proofs.filter(({ pass }) => pass === undefined);
    const missing = without.map(({ place }) => placeWords(place)).filter((at) => at !== '');
    const doubts = [...torqueDoubtWords(book, torque).values()];
    const { lower, upper } = fastener.torque;
    return {
      line: fastener.line ?? '',
      name: fastener.name,
      torque:
        upper === undefined ? rangeWords(lower, lower).replace(/^\S+ to /, '') : rangeWords(lower, upper),
      thread: [fastener.thread, fastener.grade, fastener.condition].filter((x) => x !== undefined).join(', '),
      ...sourceWords(book, fastener.source),
      order: fastener.order ?? '',
      passes_wanted: String(fastener.passes),
      advice: advice.ok ? advice.value.advice : 'no-verdict',
      reasons: advice.ok ? [...advice.value.reasons] : advice.issues.map(({ message }) => message),
      unlogged:
        unlogged.length === 0
          ? ''
          : unlogged.length === places && passes.length === 0
            ? `nothing logged (${places === 1 ? 'one place' : `${places} places`})`
            : [
                ...(without.length > 0
                  ? [`not logged at the sheet's torque: ${missing.join(', ') || 'its one place'}`]
                  : []),
                ...doubts,
              ].join('. '),
      passes: passes.map(({ entry, body, standing }) => ({
        place: placeWords(body.place, fastener.places),
        torque: printedQuantity(body.torque),
        pass: `${body.pass} of ${body.of}`,
        condition: body.condition ?? '',
        instrument: body.instrument
          ? (book.instruments.get(body.instrument)?.body.name ?? body.instrument)
          : '',
        who: entry.who,
        when: whenWords(entry.at),
        remarks: [
          standing === 'counts' ? '' : 'in doubt since a check of the wrench failed',
          ...decided(entry.id),
          body.asked ? `first said ${body.asked.first_said}; asked: ${body.asked.question}` : '',
          body.note ?? '',
        ].filter((x) => x !== ''),
      })),
    };
  });
}

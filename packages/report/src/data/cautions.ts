import type { Assessed, Book, TorqueAssessment } from '@fettle/book';
import { placeWords } from '../words/entry.ts';

/** Cautions of the sheet for whoever does the work, and those the judging raised. */
export function cautionPages(
  book: Book,
  judgements: readonly Assessed[],
  torques: readonly TorqueAssessment[],
) {
  const work = [
    ...[...book.characteristics.values()].map(({ name, caution }) => ({ name, caution })),
    ...(book.sheet?.fasteners ?? []).map(({ name, caution }) => ({ name, caution })),
    ...(book.sheet?.covers ?? []).map(({ name, caution }) => ({ name, caution })),
  ];
  const byText = new Map<string, string[]>();
  for (const { name, caution } of work)
    if (caution !== undefined) byText.set(caution, [...(byText.get(caution) ?? []), name]);
  return {
    work: [...byText].map(([text, about]) => ({ text, about: about.join(', ') })),
    judging: [
      ...judgements.flatMap(({ characteristic, place, cautions }) =>
        cautions.map(({ message }) => ({
          about: [characteristic.name, placeWords(place, characteristic.places)].filter((x) => x !== '').join(', '),
          text: message,
        })),
      ),
      ...torques.flatMap(({ fastener, advice }) =>
        advice.ok && (advice.value.advice === 'refused' || advice.value.advice === 'cautioned')
          ? advice.value.reasons.map((text) => ({ about: fastener.name, text }))
          : [],
      ),
    ],
  };
}

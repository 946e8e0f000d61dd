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
  const judging = [
    ...judgements.flatMap(({ characteristic, place, cautions }) =>
      cautions.map(({ message }) => ({
        name: [characteristic.name, placeWords(place, characteristic.places)]
          .filter((x) => x !== '')
          .join(', '),
        caution: message,
      })),
    ),
    ...torques.flatMap(({ fastener, advice }) =>
      advice.ok && (advice.value.advice === 'refused' || advice.value.advice === 'cautioned')
        ? advice.value.reasons.map((caution) => ({ name: fastener.name, caution }))
        : [],
    ),
  ];
  return { work: eachOnce(work), judging: eachOnce(judging) };
}

/** Every caution once, with all it is about. */
function eachOnce(cautions: readonly { name: string; caution: string | undefined }[]) {
  const byText = new Map<string, string[]>();
  for (const { name, caution } of cautions)
    if (caution !== undefined) byText.set(caution, [...(byText.get(caution) ?? []), name]);
  return [...byText].map(([text, about]) => ({ text, about: [...new Set(about)].join('; ') }));
}

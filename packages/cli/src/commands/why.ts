import {
  type Assessed,
  asFittedNow,
  asFound,
  assessment,
  type Book,
  placeText,
  relationWords,
  sourceOf,
  unknownCharacteristic,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { nameOf } from '../words/judgement.ts';
import { judgementJson } from '../words/judgement-json.ts';
import { workingLines } from '../words/working.ts';

export const registerWhy: Register = (program, run) => {
  program
    .command('why <job> <name>')
    .description(
      'the working behind a figure: limits and where they come from, readings, uncertainty, what decided',
    )
    .option('--as-found', 'the engine as it came')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle why linnet pump.end-clearance\n  fettle why linnet crank.rod-journal@2',
    )
    .action((job: string, name: string, said: { asFound?: boolean }) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const [id, at] = name.split('@');
        if (!book.characteristics.has(id!)) return failed(unknownCharacteristic(book, id!));
        const { judgements } = assessment(book, said.asFound ? asFound(book) : asFittedNow(book), CATALOGUE);
        const meant = judgements.filter(
          (j) => j.characteristic.id === id && (at === undefined || placeText(j.place) === at),
        );
        if (meant.length === 0)
          return failed({
            code: 'place/unknown',
            at: id!,
            got: at ?? '',
            wanted: judgements
              .filter((j) => j.characteristic.id === id)
              .map(nameOf)
              .join(', '),
            message: `Nothing is judged at "${at}". Take one of ${judgements
              .filter((j) => j.characteristic.id === id)
              .map(nameOf)
              .join(', ')}.`,
          });
        return ok({
          json: meant.map((judgement) => ({
            ...judgementJson(judgement),
            working: workingJson(book, judgement),
          })),
          text: meant.flatMap((judgement) => workingLines(book, judgement)).join('\n'),
        });
      }),
    );
};

function workingJson(book: Book, judgement: Assessed) {
  const { characteristic, operand } = judgement;
  return {
    formula: characteristic.relation === undefined ? undefined : relationWords(characteristic.relation),
    sources: Object.fromEntries(
      (['new', 'wear'] as const).flatMap((set) =>
        characteristic.limits?.[set] ? [[set, sourceOf(characteristic, set)]] : [],
      ),
    ),
    budget: operand.kind === 'value' ? operand.q.terms : [],
    readings: book.readings
      .filter(({ entry }) => judgement.entries.includes(entry.id))
      .map(({ entry }) => entry),
  };
}

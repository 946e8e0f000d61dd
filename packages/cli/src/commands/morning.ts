import { asFittedNow, assessment, isQuiet, morningCard, morningSections } from '@fettle/book';
import { CATALOGUE, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import { heading, wrapped } from '../words/table.ts';

export const registerMorning: Register = (program, run) => {
  program
    .command('morning <job>')
    .description(
      'how the engine was left: joints open or curing, openings, parts that stand wrong, what may be closed',
    )
    .addHelpText('after', '\nExample:\n  fettle morning linnet')
    .action((job: string) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const now = context.io.now();
        const card = morningCard(book, assessment(book, asFittedNow(book), CATALOGUE, now).gates, now);
        const sections = morningSections(book, card);
        return ok({
          json: { job: book.job, quiet: isQuiet(card), sections },
          text: [
            `${book.opened?.body.title ?? 'The job'}: how it was left`,
            ...(isQuiet(card) ? ['', 'Nothing was left loose, blocked, away from home or in doubt.'] : []),
            ...sections.flatMap((section) => [
              ...heading(section.heading),
              ...section.lines.flatMap((line) => wrapped(line, 104, '  ').map((one) => `  ${one}`)),
            ]),
          ].join('\n'),
        });
      }),
    );
};

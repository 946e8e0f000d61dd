import {
  asFittedNow,
  asOfWords,
  assessment,
  type Book,
  isQuiet,
  momentWords,
  morningCard,
  morningSections,
  QUIET,
} from '@fettle/book';
import { CATALOGUE, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { PAPER_HELP } from '../words/paper.ts';
import { heading, wrapped } from '../words/table.ts';
import { printedTo } from './printed.ts';

export const registerMorning: Register = (program, run) => {
  program
    .command('morning <job>')
    .description(
      'how the engine was left: joints open or curing, openings, parts that stand wrong, what may be closed',
    )
    .option('--to <file>', 'as a card of one page that hangs on it, a PDF, into this file')
    .option('--paper <paper>', PAPER_HELP, 'a4')
    .addHelpText('after', '\nExamples:\n  fettle morning linnet\n  fettle morning linnet --to card.pdf')
    .action((job: string, { to, paper }: { to?: string; paper: string }) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        if (to === undefined) return ok(told(book, context.io.now()));
        // Loaded here: the typesetter is large, and the text needs it not.
        const { morningCardPdf } = await import('@fettle/report');
        return printedTo(context, book, { to, paper }, morningCardPdf, 'The card');
      }),
    );
};

function told(book: Book, now: number): Reply {
  const card = morningCard(book, assessment(book, asFittedNow(book), CATALOGUE, now).gates, now);
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const sections = morningSections(book, card, { now, zone });
  return {
    json: {
      job: book.job,
      quiet: isQuiet(card),
      sections: sections.map((section) => ({
        heading: section.heading,
        lines: section.lines.map(({ words }) => words),
        caution: section.caution,
      })),
    },
    text: [
      book.opened?.body.title ?? 'The job',
      asOfWords(momentWords(now, zone)),
      ...(isQuiet(card) ? ['', QUIET] : []),
      ...sections.flatMap((section) => [
        ...heading(section.heading),
        ...[
          ...section.lines.map(({ words }) => words),
          ...(section.caution ? [section.caution] : []),
        ].flatMap((line) => wrapped(line, 104, '  ').map((one) => `  ${one}`)),
      ]),
    ].join('\n'),
  };
}

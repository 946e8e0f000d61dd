import { writeFileSync } from 'node:fs';
import type { Book } from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import type { ToPrint } from '@fettle/report';
import type { Context } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { cannotWrite, PAPER_HELP, paperNamed } from '../words/paper.ts';

export interface PrintSaid {
  readonly to: string;
  readonly paper: string;
}

/** `fettle book` and `fettle sheet`: what is printed on paper. */
export const registerPrinted: Register = (program, run) => {
  const printed = (set: 'buildBookPdf' | 'wallSheetPdf', words: string) => (job: string, said: PrintSaid) =>
    run(async (context) => {
      const bench = await context.bench(job);
      if (!bench.ok) return bench;
      // Loaded here: the typesetter is large, and no other command needs it.
      const report = await import('@fettle/report');
      return printedTo(context, bench.value.book(), said, report[set], words);
    });
  program
    .command('book <job>')
    .description(
      'the build book as a PDF: every characteristic accounted for, with its readings and verdicts',
    )
    .requiredOption('--to <file>', 'where the PDF goes')
    .option('--paper <paper>', PAPER_HELP, 'a4')
    .addHelpText('after', '\nExample:\n  fettle book linnet --to linnet.pdf --paper letter')
    .action(printed('buildBookPdf', 'The build book'));
  program
    .command('sheet <job>')
    .description('the wall sheet as a PDF: what is still to be measured, with boxes to write in')
    .requiredOption('--to <file>', 'where the PDF goes')
    .option('--paper <paper>', PAPER_HELP, 'a4')
    .addHelpText('after', '\nExample:\n  fettle sheet linnet --to wall.pdf')
    .action(printed('wallSheetPdf', 'The wall sheet'));
};

/** Sets one thing on the paper asked for, by the clock of this machine, and writes it where it was asked for. */
export async function printedTo(
  context: Context,
  book: Book,
  { to, paper: said }: PrintSaid,
  set: (toPrint: ToPrint) => Promise<Uint8Array>,
  words: string,
): Promise<Outcome<Reply>> {
  const named = paperNamed(said);
  if (!named.ok) return named;
  const paper = named.value;
  const printedAt = new Date(context.io.now()).toISOString();
  const pdf = await set({
    book,
    paper,
    printedAt,
    printedBy: context.who(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  });
  try {
    writeFileSync(to, pdf);
  } catch (error) {
    return failed(cannotWrite(to, error));
  }
  return ok({
    json: { file: to, paper, bytes: pdf.length, printed_at: printedAt },
    text: `${words} is in ${to}.`,
  });
}

import { writeFileSync } from 'node:fs';
import { asFittedNow, assessment, type Book, type SlipComponent, slipOf, slipWords } from '@fettle/book';
import { CATALOGUE, failed, issue, type Outcome, ok } from '@fettle/core';
import type { Context } from '../context.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { cannotWrite, PAPER_HELP, paperNamed } from '../words/paper.ts';

interface Said {
  readonly to?: string;
  readonly paper: string;
}

export const registerSlip: Register = (program, run) => {
  program
    .command('slip <job> [component]')
    .description('the machine-shop slip: sizes wanted, what to plug, wash and prove clean, what came back')
    .option('--to <file>', 'as a PDF into this file; plain text on the screen when absent')
    .option('--paper <paper>', PAPER_HELP, 'a4')
    .addHelpText('after', '\nExamples:\n  fettle slip linnet\n  fettle slip linnet crank --to crank.pdf')
    .action((job: string, component: string | undefined, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const slip = componentsOf(book, component);
        if (!slip.ok) return slip;
        if (said.to === undefined)
          return ok({
            json: { job: book.job, components: slip.value.map(componentJson) },
            text: slipWords.slipText(book, slip.value).join('\n'),
          });
        return written(context, book, component, said.to, said.paper);
      }),
    );
};

function componentsOf(book: Book, component: string | undefined): Outcome<SlipComponent[]> {
  const all = slipOf(book, assessment(book, asFittedNow(book), CATALOGUE).judgements, CATALOGUE);
  const named = component === undefined ? all : all.filter(({ part }) => part.id === component);
  if (named.length > 0) return ok(named);
  const had = all.map(({ part }) => part.id).join(', ');
  return failed(
    issue(
      all.length === 0 ? 'slip/nothing-to-machine' : 'slip/unknown-component',
      'component',
      component ?? '',
      had || 'a part decided to be machined',
      all.length === 0
        ? 'Nothing is decided to be machined yet, so there is no slip. "fettle decide JOB" shows what is proposed; "fettle decide JOB PART --as-proposed" decides it.'
        : `"${component}" is not decided to be machined. There is a slip for ${had}.`,
    ),
  );
}

const componentJson = (component: SlipComponent) => ({
  part: component.part.id,
  name: component.part.name,
  size: component.disposition.body.size,
  decided: component.disposition.entry.id,
  back: component.back?.what,
  measured: component.measured,
  inside: component.inside,
  lines: component.lines.map((line) => ({
    characteristic: line.characteristic.id,
    at: line.at,
    found: slipWords.foundWords(line),
    wanted: slipWords.wantedWords(line),
    lower: line.wanted.lower,
    upper: line.wanted.upper,
    target: line.wanted.target,
    suits: line.suits?.suits.map(({ part }) => part.id),
    proven: line.suits?.proven,
    entries: line.suits?.entries,
    returned: slipWords.returnedWords(line),
  })),
  practice: component.practice,
});

async function written(
  context: Context,
  book: Book,
  component: string | undefined,
  to: string,
  said: string,
): Promise<Outcome<Reply>> {
  const named = paperNamed(said);
  if (!named.ok) return named;
  const paper = named.value;
  // Loaded here: the typesetter is large, and the text needs it not.
  const { slipPdf } = await import('@fettle/report');
  const printedAt = new Date(context.io.now()).toISOString();
  const pdf = await slipPdf({
    book,
    paper,
    printedAt,
    printedBy: context.who(),
    ...(component && { component }),
  });
  try {
    writeFileSync(to, pdf);
  } catch (error) {
    return failed(cannotWrite(to, error));
  }
  return ok({
    json: { file: to, paper, bytes: pdf.length, printed_at: printedAt },
    text: `The machine-shop slip is in ${to}.`,
  });
}

import { writeFileSync } from 'node:fs';
import {
  asFittedNow,
  assessment,
  type Book,
  judgementsOfPart,
  type Part,
  partSought,
  TAG_SIZES,
  type TagSize,
  tagGrid,
  tagOf,
  tagWords,
} from '@fettle/book';
import { CATALOGUE, failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import type { Paper } from '@fettle/report';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { judgementLines } from '../words/judgement-lines.ts';
import { cannotWrite, PAPER_HELP, paperNamed } from '../words/paper.ts';

interface Said {
  readonly to: string;
  readonly paper: string;
  readonly size: string;
  readonly from: string;
  readonly page?: string;
}

/** `fettle tags` prints what is tied to parts; `fettle find` is what reads it back. */
export const registerTags: Register = (program, run) => {
  program
    .command('tags <job> [parts...]')
    .description('tags to tie to the parts as a PDF: name, home, way round, and a square code that finds it')
    .requiredOption('--to <file>', 'where the PDF goes')
    .option('--size <size>', `width by height in mm: ${TAG_SIZES.join(', ')}`, TAG_SIZES[1])
    .option('--from <number>', 'the first label to print on, so that a used sheet is not wasted', '1')
    .option('--page <address>', 'where the page is served; the codes then open it at the part')
    .option('--paper <paper>', PAPER_HELP, 'a4')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle tags linnet --to tags.pdf\n  fettle tags linnet rod-1 rod-2 --to tags.pdf --size 100x55 --from 4 --page http://192.0.2.7:4173/',
    )
    .action((job: string, parts: string[], said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const asked = tagsAsked(book, parts, said);
        if (!asked.ok) return asked;
        // Loaded here: the typesetter is large.
        const { tagsPdf } = await import('@fettle/report');
        const printedAt = new Date(context.io.now()).toISOString();
        const pdf = await tagsPdf({ book, printedAt, printedBy: context.who(), ...asked.value });
        try {
          writeFileSync(said.to, pdf);
        } catch (error) {
          return failed(cannotWrite(said.to, error));
        }
        const count = asked.value.parts.length;
        return ok({
          json: { file: said.to, tags: count, bytes: pdf.length, printed_at: printedAt },
          text: `${count} ${count === 1 ? 'tag is' : 'tags are'} in ${said.to}. ${
            said.page === undefined
              ? 'Their codes hold the parts’ ids; with --page they open the page.'
              : 'Their codes open the page at the part, and end in its id.'
          }`,
        });
      }),
    );
  program
    .command('find <job> <tag>')
    .description('the part a tag belongs to: its id, the five signs on the tag, or what a scanner types')
    .addHelpText('after', '\nExamples:\n  fettle find linnet crank\n  fettle find linnet 7K3QF')
    .action((job: string, text: string) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const book = bench.value.book();
        const part = partSought(book, text);
        return part.ok ? foundPart(book, part.value) : part;
      }),
    );
};

/** A part with what its tag says and how it stands. */
export function foundPart(book: Book, part: Part): Outcome<Reply> {
  const tag = tagOf(book, part);
  const { judgements } = assessment(book, asFittedNow(book), CATALOGUE);
  const own = judgementsOfPart(book, part.id, judgements);
  return ok({
    json: {
      part: part.id,
      name: part.name,
      short_id: tag.short,
      belongs: tag.belongs,
      way: tag.way,
      partners: tag.partners.map(({ id }) => id),
      state: tagWords.stateWords(part),
      judgements: own.map(({ characteristic, place, status }) => ({
        characteristic: characteristic.id,
        place,
        status,
      })),
    },
    text: [
      ...tagWords.tagLines(tag),
      `${tagWords.stateWords(part)}; ${tagWords.decidedWords(book, part)}`,
      ...own.flatMap((judgement) => judgementLines(judgement)),
    ].join('\n'),
  });
}

function tagsAsked(
  book: Book,
  named: readonly string[],
  { size: saidSize, from: saidFrom, page, paper: saidPaper }: Said,
): Outcome<{ paper: Paper; size: TagSize; from: number; page?: string; parts: readonly string[] }> {
  const issues: Issue[] = [];
  const paper = paperNamed(saidPaper);
  if (!paper.ok) issues.push(...paper.issues);
  const size = TAG_SIZES.find((one) => one === saidSize.toLowerCase().replace(/mm$/, ''));
  if (!size) issues.push(unknownSize(saidSize));
  const parts = named.length === 0 ? ok([...book.parts.values()]) : allSought(book, named);
  if (!parts.ok) issues.push(...parts.issues);
  else if (parts.value.length === 0) issues.push(noParts);
  const from = /^\d{1,3}$/.test(saidFrom) ? Number(saidFrom) : 0;
  if (size && paper.ok) {
    const { columns, rows } = tagGrid(size, paper.value);
    if (from < 1 || from > columns * rows) issues.push(noSuchLabel(saidFrom, columns * rows));
  }
  if (page !== undefined && !/^https?:\/\/[^\s#]+$/.test(page)) issues.push(noAddress(page));
  if (!paper.ok || !size || !parts.ok || issues.length > 0) return failed(...issues);
  return ok({
    paper: paper.value,
    size,
    from,
    ...(page !== undefined && { page }),
    parts: parts.value.map(({ id }) => id),
  });
}

function allSought(book: Book, named: readonly string[]): Outcome<Part[]> {
  const found = named.map((text) => partSought(book, text));
  const issues = found.flatMap((one) => (one.ok ? [] : one.issues));
  return issues.length > 0 ? failed(...issues) : ok(found.flatMap((one) => (one.ok ? [one.value] : [])));
}

const unknownSize = (got: string): Issue =>
  issue(
    'tags/unknown-size',
    '--size',
    got,
    TAG_SIZES.join(', '),
    `There is no tag of "${got}" here. Take ${TAG_SIZES.join(', ')} (mm, width by height).`,
  );

const noSuchLabel = (got: string, most: number): Issue =>
  issue(
    'tags/no-such-label',
    '--from',
    got,
    `1 to ${most}`,
    `A sheet of this size holds ${most} labels, counted line by line; there is no label "${got}" to begin with.`,
  );

const noAddress = (got: string): Issue =>
  issue(
    'tags/no-address',
    '--page',
    got,
    'an address such as http://192.0.2.7:4173/',
    `"${got}" is no address of the page. "fettle serve --lan" prints the one that other devices use.`,
  );

const noParts: Issue = issue(
  'tags/no-parts',
  'parts',
  'none',
  'a part that was entered',
  'No part is entered yet, so there is nothing to tie a tag to. Enter parts with "fettle part".',
);

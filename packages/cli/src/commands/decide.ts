import {
  asFittedNow,
  assessment,
  type Body,
  type Book,
  decidingWords,
  type Proposal,
  plannedRepairs,
  proposalsOf,
} from '@fettle/book';
import { CATALOGUE, failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import type { Bench } from '../bench.ts';
import { entered } from '../entered.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { obtainableWords, unknownSize } from '../sheet-size.ts';
import { proposalJson, proposalLines } from '../words/proposal-lines.ts';

interface Said {
  readonly why?: string;
  readonly size?: string;
  readonly asProposed?: boolean;
  readonly open?: boolean;
}

export const registerDecide: Register = (program, run) => {
  program
    .command('decide <job> [part] [decision]')
    .description(
      'what becomes of a part: reuse, machine or replace; without a decision, what the verdicts propose',
    )
    .option('--why <text>', 'the reason; it is what the book is believed for')
    .option('--size <name>', 'a size of the spec sheet')
    .option('--as-proposed', 'decide it as proposed, with the evidence as the reason')
    .option('--open', 'only the parts on which nothing is decided, or otherwise than proposed')
    .addHelpText(
      'after',
      `
Examples:
  fettle decide linnet
  fettle decide linnet crank
  fettle decide linnet crank --as-proposed
  fettle decide linnet crank machine --size ".010 under" --why "main 3 and rod 2 are under their limits"`,
    )
    .action((job: string, part: string | undefined, decision: string | undefined, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        if (decision === undefined && said.asProposed !== true)
          return proposed(bench.value.book(), part, said, context.io.now());
        return entered(
          bench,
          (one) => dispositionSaid(one, part, decision, said, context.io.now()),
          (book) => {
            const body = book.dispositions.get(part ?? '')?.body;
            return `${part}: ${body?.decision}${body?.size === undefined ? '' : `, ${body.size}`}.${obtainableWords(book, body?.size)}`;
          },
        );
      }),
    );
};

const proposals = (book: Book, now: number): { found: Proposal[]; because?: Issue } => {
  const assessed = assessment(book, asFittedNow(book), CATALOGUE);
  const { taken, because } = plannedRepairs(book, assessed, { now });
  return { found: proposalsOf(book, assessed.judgements, taken), ...(because && { because }) };
};

function proposed(book: Book, part: string | undefined, { open }: Said, now: number): Outcome<Reply> {
  const { found, because } = proposals(book, now);
  const shown = found.filter(
    (one) => (part === undefined || one.part.id === part) && (open !== true || one.agrees !== true),
  );
  if (part !== undefined && shown.length === 0 && !found.some((one) => one.part.id === part))
    return failed(unknownPart(book, part));
  return ok({
    json: { job: book.job, no_plan: because, proposals: shown.map((one) => proposalJson(one)) },
    text: proposalLines(book, shown, because, part !== undefined).join('\n'),
  });
}

const unknownPart = (book: Book, part: string): Issue =>
  issue(
    'part/unknown',
    'part',
    part,
    [...book.parts.keys()].join(', '),
    book.parts.has(part)
      ? `${part} is fitted nowhere, so nothing is proposed for it. Fit it with "fettle fit", or decide it by hand.`
      : `No part "${part}" has been entered. Enter it with "fettle part".`,
  );

function dispositionSaid(
  bench: Bench,
  part: string | undefined,
  decision: string | undefined,
  said: Said,
  now: number,
): Outcome<{ kind: 'disposition'; body: Body<'disposition'> }> {
  const book = bench.book();
  if (part === undefined || !book.parts.has(part)) return failed(unknownPart(book, part ?? ''));
  if (said.asProposed === true) return asProposed(book, part, said, now);
  const known = (['reuse', 'machine', 'replace'] as const).find((one) => one === decision);
  if (!known)
    return failed(
      issue(
        'decision/unknown',
        'decision',
        decision ?? '',
        'reuse, machine, replace',
        `A part is reused, machined or replaced: say reuse, machine or replace, not "${decision}".`,
      ),
    );
  if (said.why === undefined)
    return failed(
      issue(
        'decision/why-missing',
        '--why',
        'nothing',
        'the reason',
        'Say why with --why: the decision is on record with its reason. Or take the proposal with --as-proposed.',
      ),
    );
  const badSize = unknownSize(book, said.size);
  if (badSize) return badSize;
  return ok({
    kind: 'disposition',
    body: { part, decision: known, why: said.why, ...(said.size !== undefined && { size: said.size }) },
  });
}

function asProposed(
  book: Book,
  part: string,
  { why }: Said,
  now: number,
): ReturnType<typeof dispositionSaid> {
  const proposal = proposals(book, now).found.find((one) => one.part.id === part);
  if (!proposal?.decision)
    return failed(
      issue(
        'decision/nothing-proposed',
        'part',
        part,
        'a part for which the evidence carries a decision',
        `Nothing is proposed for ${part}: ${proposal ? decidingWords.reasonWords(proposal) : 'it is fitted nowhere.'} Decide it with "fettle decide JOB ${part} reuse|machine|replace --why".`,
      ),
    );
  const { decision, size } = proposal;
  return ok({
    kind: 'disposition',
    body: {
      part,
      decision,
      why: why ?? decidingWords.evidenceWords(book, proposal),
      ...(size !== undefined && { size }),
    },
  });
}

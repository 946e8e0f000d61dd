import {
  type Book,
  type JobMatching,
  jobMatching,
  matchingsTried,
  matchingWords,
  type Placing,
  placeText,
  positionAt,
  sameOrder,
} from '@fettle/book';
import { CATALOGUE, failed, type Outcome, ok, standardUncertainty } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Bench } from '../bench.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { heading, table, wrapped } from '../words/table.ts';

interface Said {
  readonly move?: string;
  readonly parts?: string[];
  readonly worst?: boolean;
  readonly fit?: boolean;
}

export const registerMatch: Register = (program, run) => {
  program
    .command('match <job> [characteristic]')
    .description('which part goes where: pistons to bores, shells to journals, rods to pistons')
    .option('--move <position>', 'what changes places, such as "piston-{cylinder}"')
    .option('--parts <parts...>', 'only these parts')
    .option('--worst', 'the worst pair as good as can be, instead of the least sum of squares')
    .option('--fit', 'enter the parts as fitted in that order')
    .addHelpText(
      'after',
      `
Without a characteristic: what can be matched in this job.

Examples:
  fettle match returned
  fettle match returned piston.skirt-clearance
  fettle match returned piston.skirt-clearance --parts piston-p1 piston-p2 piston-p3 piston-p4 --worst`,
    )
    .action((job: string, characteristic: string | undefined, said: Said) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        if (characteristic === undefined) return ok(listed(bench.value.book()));
        return matched(bench.value, characteristic, said);
      }),
    );
};

/** What could be matched, how well, and where it cannot be yet, why. */
function listed(book: Book): Reply {
  const all = matchingsTried(book, 'sum', CATALOGUE);
  const rows = all.flatMap(({ characteristic, moves, name, seats, parts, found }) => [
    `  ${characteristic.name} [${characteristic.id}], moving ${name} [${moves}]: ${parts.length} measured for ${seats.length}`,
    ...(found.ok
      ? [
          `    best: ${matchingWords.verdictWords(found.value.best)}; as boxed: ${matchingWords.verdictWords(found.value.boxed)}`,
        ]
      : found.issues.flatMap(({ message }) => wrapped(message, 102).map((line) => `    ${line}`))),
  ]);
  return {
    json: {
      job: book.job,
      matchings: all.map(({ characteristic, moves, seats, parts, found }) => ({
        characteristic: characteristic.id,
        moves,
        seats: seats.length,
        parts: parts.map(({ id }) => id),
        ...(found.ok ? { best: found.value.best, boxed: found.value.boxed } : { issues: found.issues }),
      })),
    },
    text:
      rows.length === 0
        ? 'Nothing can be matched: no parts that can change places are measured yet.'
        : ['What can be matched', ...rows].join('\n'),
  };
}

async function matched(bench: Bench, characteristic: string, said: Said): Promise<Outcome<Reply>> {
  const book = bench.book();
  const found = jobMatching(
    book,
    {
      characteristic,
      ...(said.move !== undefined && { moves: said.move }),
      ...(said.parts && { parts: said.parts }),
      objective: said.worst ? 'worst' : 'sum',
    },
    CATALOGUE,
  );
  if (!found.ok) return found;
  const matching = found.value;
  if (said.fit) {
    if (!matching.inside)
      return failed({
        code: 'matching/out',
        at: '--fit',
        got: `${matching.best.out} pairs out`,
        wanted: 'an order with no pair out',
        message:
          'No order of these parts keeps every pair inside, so none is fitted. Fit single parts with "fettle fit".',
      });
    const written = await bench.write(fitting(matching));
    if (!written.ok) return written;
  }
  const text = matchingText(matching, said.fit === true);
  return ok({ json: matchingJson(book, matching), text: text.join('\n') });
}

const fitting = ({ seats, parts, moves, best }: JobMatching): Draft[] =>
  seats.map((seat, i) => ({
    kind: 'part-fitted',
    body: { position: positionAt(moves, seat), part: parts[best.partOf[i]!]!.id },
  }));

function matchingText(found: JobMatching, fitted: boolean): string[] {
  const { characteristic, seats, parts, best, boxed } = found;
  const unit = characteristic.unit ?? '';
  const rows = seats.map((seat, i) => [
    placeText(seat),
    ...parts.map((_, j) => {
      const mark = best.partOf[i] === j ? '▸' : ' ';
      const status = found.tried[i]![j]!.status;
      const shape = status === 'out' ? '✖' : status === 'cannot-tell' ? '◐' : status === 'in' ? '○' : '·';
      return `${mark}${matchingWords.triedWords(found, i, j)} ${shape}`;
    }),
  ]);
  const placing = (name: string, one: Placing): string[] => [
    ...heading(name),
    `  ${matchingWords.verdictWords(one)}; ${matchingWords.deviationWords(found, one)}`,
    ...table(
      seats.map((seat, i) => {
        const tried = found.tried[i]![one.partOf[i]!]!;
        return [
          positionAt(found.moves, seat),
          parts[one.partOf[i]!]!.name,
          `${matchingWords.triedWords(found, i, one.partOf[i]!)} ±${matchingWords.doubtWords(found, tried)} ${unit}`,
          WORDS[tried.status],
        ];
      }),
      '  ',
    ),
  ];
  return [
    `${characteristic.name}, every part tried in every place [${unit}]`,
    ...table([['', ...parts.map(({ id }) => ` ${id}`)], ...rows], '  '),
    '  ▸ chosen; ○ in, ◐ cannot tell, ✖ out',
    ...wrapped(matchingWords.targetWords(found), 106, '  ').map((line) => `  ${line}`),
    ...placing(fitted ? 'Fitted so' : 'Best', best),
    ...placing('As boxed', boxed),
    ...(found.fitted && !sameOrder(best, found.fitted) ? placing('As fitted now', found.fitted) : []),
    '',
    ...matchingWords
      .matchingNotes(found)
      .flatMap((note) => wrapped(note, 104))
      .map((line) => `  ${line}`),
  ];
}

const WORDS = {
  in: '○ IN',
  out: '✖ OUT',
  'cannot-tell': '◐ CANNOT TELL',
  missing: '… not read',
  'no-limits': '· no limits',
} as const;

function matchingJson(book: Book, found: JobMatching) {
  const placing = (one: Placing) => ({
    deviation: { value: one.deviation, unit: 'SI' },
    worst: { value: one.worst, unit: 'SI' },
    out: one.out,
    cannot_tell: one.cannotTell,
    pairs: found.seats.map((seat, i) => {
      const tried = found.tried[i]![one.partOf[i]!]!;
      return {
        position: positionAt(found.moves, seat),
        part: found.parts[one.partOf[i]!]!.id,
        value: tried.q.value,
        standard_uncertainty: standardUncertainty(tried.q),
        status: tried.status,
      };
    }),
  });
  return {
    job: book.job,
    characteristic: found.characteristic.id,
    moves: found.moves,
    objective: found.objective,
    target: found.target,
    target_from: found.targetFrom,
    inside: found.inside,
    best: placing(found.best),
    boxed: placing(found.boxed),
    ...(found.fitted && { fitted: placing(found.fitted) }),
  };
}

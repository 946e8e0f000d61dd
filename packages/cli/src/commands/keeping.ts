import { type Body, type Book, CLOCKS_APART, type Place, placeFrom, positionsOf } from '@fettle/book';
import { failed, type Issue, issue, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import { entered, present, quantities } from '../entered.ts';
import type { Register } from '../registration.ts';

const STATES = ['loose', 'dry', 'finger-tight', 'curing', 'tight', 'cured'] as const;
const FILLINGS = ['plug', 'tape', 'rag', 'cap', 'other'] as const;

const unknownPart = (book: Book, part: string): Issue[] =>
  book.parts.has(part)
    ? []
    : [
        issue(
          'part/unknown',
          'part',
          part,
          'a part of this job',
          `There is no part "${part}". Enter it with "fettle part".`,
        ),
      ];

export const registerMark: Register = (program, run) => {
  program
    .command('mark <job> <part>')
    .description(
      'where a part belongs, with which partners, and which way round: caps, rods, shells, followers',
    )
    .option('--mark <words>', 'what is stamped, scratched or tied to it')
    .option('--home <position>', 'the position it belongs in and nowhere else')
    .option(
      '--partner <parts...>',
      'parts it was made or run in with: PART, or PART@POSITION where that must stand',
    )
    .option('--way <words>', 'which way round it must stand')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExample:\n  fettle mark linnet rod-2 --mark "2" --home rod-2 --way "number to the camshaft"',
    )
    .action(
      (
        job: string,
        part: string,
        said: { mark?: string; home?: string; partner?: string[]; way?: string; note?: string },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench) => {
              const book = bench.book();
              const positions = book.sheet ? positionsOf(book.sheet).map(({ id }) => id) : [];
              const partners = (said.partner ?? []).map((one) => one.split('@', 2) as [string, string?]);
              const beside = partners.filter((one): one is [string, string] => one[1] !== undefined);
              const noPosition = (at: string, named: string | undefined): Issue[] =>
                named === undefined || positions.includes(named)
                  ? []
                  : [
                      issue(
                        'position/unknown',
                        at,
                        named,
                        positions.slice(0, 20).join(', ') || 'a position of the sheet',
                        `The sheet has no position "${named}".`,
                      ),
                    ];
              const issues = [
                ...unknownPart(book, part),
                ...partners.flatMap(([one]) => unknownPart(book, one)),
                ...beside.flatMap(([, position]) => noPosition('--partner', position)),
                ...noPosition('--home', said.home),
              ];
              if (issues.length > 0) return failed(...issues);
              return ok({
                kind: 'part-marked',
                body: present({
                  part,
                  mark: said.mark,
                  home: said.home,
                  partners: said.partner && partners.map(([one]) => one),
                  beside: beside.length > 0 ? Object.fromEntries(beside) : undefined,
                  way: said.way,
                  note: said.note,
                }) as Body<'part-marked'>,
              });
            },
            `${part} is marked.`,
          ),
        ),
    );
};

export const registerClean: Register = (program, run) => {
  program
    .command('clean <job> <part>')
    .description('a part was proven clean: opened, washed, blown, seen through')
    .option('--opened', 'every plug and passage opened')
    .option('--washed')
    .option('--blown')
    .option('--seen-through', 'light seen through every passage')
    .option('--note <text>')
    .addHelpText(
      'after',
      `
Example:
  fettle clean linnet block --opened --washed --blown --seen-through
Caution: compressed air with an eye shield, never at skin; solvents in good air, no flame.`,
    )
    .action(
      (
        job: string,
        part: string,
        said: { opened?: boolean; washed?: boolean; blown?: boolean; seenThrough?: boolean; note?: string },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench): Outcome<Draft> => {
              const book = bench.book();
              const issues = unknownPart(book, part);
              if (issues.length > 0) return failed(...issues);
              return ok({
                kind: 'part-cleaned',
                body: {
                  part,
                  state: book.parts.get(part)!.current.id,
                  opened: said.opened === true,
                  washed: said.washed === true,
                  blown: said.blown === true,
                  seen_through: said.seenThrough === true,
                  ...(said.note !== undefined && { note: said.note }),
                },
              });
            },
            `${part}: entered.`,
          ),
        ),
    );
};

export const registerOpening: Register = (program, run) => {
  program
    .command('opening <job> <opening>')
    .description('plugs, tape, rags and caps counted in and out of an opening')
    .option('--in <count>', 'put in, or back in')
    .option('--out <count>', 'taken out')
    .option('--by <what>', FILLINGS.join(', '), 'rag')
    .option('--name <words>', 'where the sheet does not name it')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle opening castelvar gallery --out 11 --by plug\n  fettle opening linnet rod-tunnels --in 3 --by rag --name "Rod tunnels"',
    )
    .action(
      (
        job: string,
        opening: string,
        said: { in?: string; out?: string; by: string; name?: string; note?: string },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (): Outcome<Draft> => {
              const by = FILLINGS.find((one) => one === said.by);
              const count = Number(said.in ?? said.out);
              if (
                !by ||
                (said.in === undefined) === (said.out === undefined) ||
                !Number.isInteger(count) ||
                count < 1
              )
                return failed(
                  issue(
                    'opening/count',
                    'opening',
                    [said.in && `--in ${said.in}`, said.out && `--out ${said.out}`, `--by ${said.by}`]
                      .filter(Boolean)
                      .join(' '),
                    `--in or --out with a whole number, --by ${FILLINGS.join(', ')}`,
                    'Say how many went in with --in, or came out with --out, and what they were with --by.',
                  ),
                );
              return ok({
                kind: said.in === undefined ? 'opening-cleared' : 'opening-blocked',
                body: {
                  opening,
                  by,
                  count,
                  ...(said.name !== undefined && { name: said.name }),
                  ...(said.note !== undefined && { note: said.note }),
                },
              });
            },
            `${opening}: entered.`,
          ),
        ),
    );
};

export const registerJoint: Register = (program, run) => {
  program
    .command('joint <job> <joint> <state>')
    .description('how a joint was left: loose, dry, finger-tight, curing, tight, cured')
    .option('--at <place>', 'which of them')
    .option('--cures-after <time>', 'such as "24 h"')
    .option('--close-within <time>', 'such as "10 min": the open time of a sealant')
    .option('--started <time>', 'when the sealant went on, such as 2026-01-05T08:00:00Z; now when absent')
    .option('--product <words>', 'the sealant')
    .option('--name <words>', 'where the joint is no fastener of the sheet')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle joint linnet pan-screw finger-tight\n  fettle joint linnet core-plug curing --name "Core plug" --product "thread sealant" --cures-after "24 h"',
    )
    .action(
      (
        job: string,
        joint: string,
        state: string,
        said: {
          at?: string;
          curesAfter?: string;
          closeWithin?: string;
          started?: string;
          product?: string;
          name?: string;
          note?: string;
        },
      ) =>
        run(async (context) =>
          entered(
            await context.bench(job),
            (bench): Outcome<Draft> => {
              const known = STATES.find((one) => one === state);
              const { sheet } = bench.book();
              const fastener = sheet?.fasteners.find(({ id }) => id === joint);
              const place: Outcome<Place> =
                said.at === undefined || !fastener
                  ? ok({})
                  : placeFrom(sheet ?? { axes: {} }, fastener, said.at);
              const issues = [
                ...(known
                  ? []
                  : [
                      issue(
                        'joint/state',
                        'state',
                        state,
                        STATES.join(', '),
                        `A joint is ${STATES.join(', ')}, not "${state}".`,
                      ),
                    ]),
                ...quantities([
                  ['--cures-after', said.curesAfter, 'time'],
                  ['--close-within', said.closeWithin, 'time'],
                ]),
                ...(said.started !== undefined && Number.isNaN(Date.parse(said.started))
                  ? [
                      issue(
                        'joint/started',
                        '--started',
                        said.started,
                        'such as 2026-01-05T08:00:00Z',
                        'Say the time as date and clock.',
                      ),
                    ]
                  : []),
                ...(Date.parse(said.started ?? '') > context.io.now() + CLOCKS_APART
                  ? [
                      issue(
                        'joint/starts-later',
                        '--started',
                        said.started!,
                        'a time that has been',
                        `${said.started} is still to come. Say when the sealant went on.`,
                      ),
                    ]
                  : []),
                ...(place.ok ? [] : place.issues),
              ];
              if (issues.length > 0 || !known) return failed(...issues);
              return ok({
                kind: 'joint-state',
                body: present({
                  joint,
                  name: said.name,
                  place: place.ok && Object.keys(place.value).length > 0 ? place.value : undefined,
                  state: known,
                  started: said.started === undefined ? undefined : new Date(said.started).toISOString(),
                  cures_after: said.curesAfter,
                  close_within: said.closeWithin,
                  product: said.product,
                  note: said.note,
                }) as Body<'joint-state'>,
              });
            },
            `${joint}: ${state}.`,
          ),
        ),
    );
};

import type { Book } from '@fettle/book';
import { failed, type Outcome, ok } from '@fettle/core';
import type { Draft } from '@fettle/store';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import {
  budgetReply,
  checkedReply,
  ownedReply,
  stackReply,
  studyReply,
  typesReply,
} from '../words/chest-lines.ts';
import {
  adoption,
  check,
  correction,
  declaration,
  study,
  type ToolSaid,
  toolNamed,
  wrongUse,
} from './tool-drafts.ts';

/** What can be done: with what to write, if anything, and what to say when it is written. */
const ACTIONS: Readonly<
  Record<
    string,
    {
      readonly draft?: (
        book: Book,
        id: string | undefined,
        rest: readonly string[],
        said: ToolSaid,
      ) => Outcome<Draft>;
      readonly reply: (
        book: Book,
        id: string,
        rest: readonly string[],
        entry: string | undefined,
      ) => Outcome<Reply>;
    }
  >
> = {
  add: { draft: declaration, reply: (book, id) => ok(budgetReply(book, id)) },
  show: { reply: (book, id) => ok(budgetReply(book, id)) },
  check: { draft: check, reply: (book, _, __, entry) => ok(checkedReply(book, entry ?? '')) },
  correct: { draft: correction, reply: (book, id) => ok(ownedReply(book, id)) },
  study: { draft: study, reply: (book, _, __, entry) => studyReply(book, entry ?? '') },
  adopt: { draft: adoption, reply: (book, id) => ok(budgetReply(book, id)) },
  stack: { reply: stackReply },
};

export const registerTools: Register = (program, run) => {
  program
    .command('tools <job> [action] [id] [rest...]')
    .description(
      'the instruments owned: list them, "add" one, "show" its budget, "check" it against something known, "study" your own repeatability with it and "adopt" that, "correct" what a failed check reopened, "stack" leaves; "types" lists what can be built',
    )
    .option('--type <type>', 'micrometer, dial bore gauge, feeler leaves …')
    .option(
      '--u <U>',
      'expanded uncertainty of a reading, such as "0.0002 in" or "3 %"; left out, it is built',
    )
    .option('--coverage <k>', 'U = k u', '2')
    .option('--common <share>', 'with --u: share of the variance common to all its readings', '0.5')
    .option(
      '--has <key=value...>',
      'what is known of it, from which U is built: range="4 in" step="0.0001 in" class=1.6',
    )
    .option('--metric', 'usual figures, and U, in millimetres, bar and newtons')
    .option(
      '--set-in <id>',
      'the instrument it is set in or read by: its error is shared and cancels between the two',
    )
    .option('--leaves <leaves>', 'feeler leaves owned, such as "1.5thou 2thou 3thou"')
    .option('--against <standard>', 'check: what it was held against')
    .option('--read <quantity>', 'check: what it read')
    .option('--limit <quantity>', 'check: how far it may be off; left out, its own U')
    .option('--when <when>', 'check: before or after the readings of a sitting')
    .option('--no-good', 'check: it failed, whatever the figures say')
    .option('--add <quantity>', 'correct: what to add to what was read')
    .option('--doubt <U>', 'correct: how well that is known, ± at about 95 %')
    .option('--why <why>', 'correct: why all of them are off by just that')
    .option('--what <text>', 'study: what was read over and over')
    .option('--note <text>')
    .addHelpText(
      'after',
      `
Examples:
  fettle tools linnet
  fettle tools linnet types
  fettle tools linnet add mic "Micrometer 2-3 in" --type micrometer --has range="3 in" step="0.0001 in"
  fettle tools linnet add bore "Bore gauge" --type "dial bore gauge" --set-in mic
  fettle tools linnet add leaves "Feeler leaves" --type "feeler leaves" --u "0.0005 in" --leaves "2thou 3thou 4thou"
  fettle tools linnet show mic
  fettle tools linnet check mic --against "2.0000 in" --read "2.0001 in" --when before
  fettle tools linnet correct mic --add "-0.0005 in" --doubt "0.0002 in" --why "a burr on the anvil, there all day"
  fettle tools linnet study mic 2.4982in 2.4981in 2.4982in 2.4980in --what "main journal 1, front"
  fettle tools linnet study mic 1/mon: 2.4982in 2.4981in 1/tue: 2.4982in 2.4980in 2/mon: …   (part/occasion:)
  fettle tools linnet adopt mic
  fettle tools linnet stack leaves 38.5thou`,
    )
    .action(
      (job: string, action: string | undefined, id: string | undefined, rest: string[], said: ToolSaid) =>
        run(async (context) => {
          const bench = await context.bench(job);
          if (!bench.ok) return bench;
          if (action === undefined) return ok(ownedReply(bench.value.book()));
          if (action === 'types') return ok(typesReply());
          const wanted = ACTIONS[action];
          if (!wanted)
            return failed(
              wrongUse(
                'action',
                action,
                `${Object.keys(ACTIONS).join(', ')} or types`,
                `"${action}" is nothing to do with tools. Say ${Object.keys(ACTIONS).join(', ')} or types.`,
              ),
            );
          if (!wanted.draft) {
            const named = toolNamed(bench.value.book(), id);
            return named.ok ? wanted.reply(bench.value.book(), named.value, rest, undefined) : named;
          }
          const draft = wanted.draft(bench.value.book(), id, rest, said);
          if (!draft.ok) return draft;
          const written = await bench.value.write([draft.value]);
          if (!written.ok) return written;
          const [entry] = written.value;
          const reply = wanted.reply(bench.value.book(), id!, rest, entry?.id);
          // A program is told what was written.
          return reply.ok ? ok({ ...reply.value, json: entry }) : reply;
        }),
    );
};

import {
  asFittedNow,
  assessment,
  type Book,
  placeText,
  type ReadingPlan,
  readingPlan,
  readingPlanWords as words,
} from '@fettle/book';
import { CATALOGUE, failed, issue, type Outcome, ok } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { nameOf } from '../words/judgement.ts';
import { heading, table, wrapped } from '../words/table.ts';

export const registerToday: Register = (program, run) => {
  program
    .command('today <job>')
    .description('what to read today, in the order that decides most soonest')
    .option('--minutes <minutes>', 'how long there is')
    .addHelpText('after', '\nExamples:\n  fettle today linnet\n  fettle today linnet --minutes 60')
    .action((job: string, said: { minutes?: string }) =>
      run(async (context): Promise<Outcome<Reply>> => {
        const bench = await context.bench(job);
        if (!bench.ok) return bench;
        const minutes = said.minutes === undefined ? Number.POSITIVE_INFINITY : minutesSaid(said.minutes);
        if (minutes === undefined)
          return failed(
            issue(
              'plan/unreadable-minutes',
              '--minutes',
              said.minutes ?? '',
              'a number of minutes over 0',
              `"${said.minutes}" is no number of minutes. Say it as "--minutes 60".`,
            ),
          );
        const book = bench.value.book();
        const plan = readingPlan(book, assessment(book, asFittedNow(book), CATALOGUE, context.io.now()));
        return ok({ json: planJson(book, plan, minutes), text: planText(book, plan, minutes) });
      }),
    );
};

const minutesSaid = (text: string): number | undefined =>
  /^\d+(\.\d+)?$/.test(text) && Number(text) > 0 ? Number(text) : undefined;

const planJson = (book: Book, plan: ReadingPlan, minutes: number) => ({
  job: book.job,
  steps: plan.steps.map((step) => ({
    characteristic: step.characteristic.id,
    place: step.place,
    with: words.withWords(step),
    why: step.why,
    minutes: step.minutes,
    set_up: step.setUp,
    at: step.at,
    fits: step.at <= minutes,
    decides: step.decides.map(({ judgement, chance }) => ({ judgement: nameOf(judgement), chance })),
  })),
  left: plan.left.map(({ judgement, why }) => ({ judgement: nameOf(judgement), why })),
  assumed: words.PLAN_GROUNDS,
});

/** More places than these are counted. */
const MOST_PLACES = 8;

function planText(book: Book, plan: ReadingPlan, minutes: number): string {
  const runs = words.planRuns(plan, minutes, ({ places }, place) => placeText(place, places));
  const say = (text: string): string[] => wrapped(text, 104, '  ').map((line) => `  ${line}`);
  return [
    `${book.opened?.body.title ?? 'The job'}: what to read today`,
    ...say(words.planSum(plan, minutes)),
    ...(runs.length > 0 ? heading('In this order') : []),
    ...runs.flatMap((run, i) => [
      ...table(
        [
          [
            `${i + 1}.`,
            `until ${words.minutesWords(run.at)}`,
            `${run.what}${run.where.length === 0 ? '' : run.where.length > MOST_PLACES ? `, ${run.where.length} places` : ` at ${run.where.join(' ')}`}, ${run.with}`,
          ],
        ],
        '  ',
      ),
      ...run.decides.flatMap((one) => wrapped(`→ ${one}`, 96, '  ').map((line) => `       ${line}`)),
    ]),
    ...(plan.left.length > 0 ? heading('Not in the plan') : []),
    ...words.leftWords(plan.left).flatMap(say),
    '',
    ...say(words.PLAN_GROUNDS),
  ].join('\n');
}

import { admittedTask, type Body, type Book, timeLineOf, timelineWords } from '@fettle/book';
import { type Outcome, ok } from '@fettle/core';
import { timeLineText } from '@fettle/draw';
import { entered, present } from '../entered.ts';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { timeLineLines } from '../words/time-line-lines.ts';
import { basketSaid } from './basket.ts';

interface TaskSaid {
  readonly takes: string;
  readonly soonest?: string;
  readonly latest?: string;
  readonly needs?: string[];
  readonly afterAll?: boolean;
  readonly began?: string | true;
  readonly done?: boolean;
  readonly note?: string;
}

export const registerTimeLine: Register = (program, run) => {
  program
    .command('task <job> <id> <name>')
    .description('a task of one’s own that takes time: washing, assembly, a sealant that cures')
    .requiredOption('--takes <time>', 'most likely, such as "3 days"')
    .option('--soonest <time>', 'if all goes well')
    .option('--latest <time>', 'not exceeded unless something breaks')
    .option('--needs <ids...>', 'tasks, offers and supplies that come before it')
    .option('--after-all', 'begins when everything bought and machined is there')
    .option('--began [time]', 'it was begun, such as 2026-01-05T08:00:00Z; now when no time is said')
    .option('--done', 'it is over')
    .option('--note <text>')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle task linnet assembly "Putting it together" --takes "8 days" --latest "14 days" --after-all\n  fettle task linnet cure "Sealant of the pan cures" --takes "1 day" --needs assembly',
    )
    .action((job: string, id: string, name: string, said: TaskSaid) =>
      run(async (context) =>
        entered(
          await context.bench(job),
          (bench) => {
            const body = admittedTask(
              bench.book(),
              present({
                task: id,
                name,
                takes: said.takes,
                soonest: said.soonest,
                latest: said.latest,
                needs: said.needs,
                after_all: said.afterAll,
                began: begun(said.began, context.io.now()),
                done: said.done,
                note: said.note,
              }) as Body<'task-planned'>,
            );
            return body.ok ? ok({ kind: 'task-planned', body: body.value }) : body;
          },
          `${name}: ${said.done ? 'over' : `planned, ${said.takes}`}.`,
        ),
      ),
    );
  program
    .command('timeline <job>')
    .description('what lies ahead, what the date hangs on, and the chance of meeting it')
    .option('--within <time>', 'time there is, such as "6 weeks"; what the job says when absent')
    .option('--no-plan', 'without the repairs that the plan takes')
    .addHelpText('after', '\nExample:\n  fettle timeline linnet --within "5 weeks"')
    .action((job: string, said: { within?: string; plan: boolean }) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? timeLineReply(bench.value.book(), said, context.io.now()) : bench;
      }),
    );
};

/** When it was begun, as it is kept; what does not read as a time is kept out by the ledger. */
const begun = (said: string | true | undefined, now: number): string | undefined => {
  if (said === undefined) return undefined;
  const time = said === true ? now : Date.parse(said);
  return Number.isNaN(time) ? String(said) : new Date(time).toISOString();
};

function timeLineReply(book: Book, said: { within?: string; plan: boolean }, now: number): Outcome<Reply> {
  const found = basketSaid(book, said, now);
  if (!found.ok) return found;
  const { basket, because, days } = found.value;
  const line = timeLineOf(book, basket, { now, days });
  const { schedule, chance, pert } = line;
  const late = line.days !== undefined && schedule.days > line.days;
  return ok({
    json: {
      job: book.job,
      no_plan: because,
      from: new Date(line.from).toISOString(),
      date: line.date === undefined ? undefined : new Date(line.date).toISOString().slice(0, 10),
      days: line.days,
      likely_days: schedule.days,
      critical: schedule.critical,
      chance: chance.chance,
      days_one_in_two: chance.middle,
      days_nine_in_ten: chance.late,
      trials: chance.trials,
      pert: { mean_days: pert.mean, deviation_days: pert.deviation },
      tasks: line.tasks.map(({ id, name, kind, state, gone, overdue, times, unsaid, needs, entry }) => ({
        id,
        name,
        kind,
        state,
        days_gone: gone,
        overdue,
        soonest_days: times.soonest,
        likely_days: times.likely,
        latest_days: times.latest,
        time_said: !unsaid,
        needs,
        start: schedule.slots.get(id)?.start,
        finish: schedule.slots.get(id)?.finish,
        slack: schedule.slots.get(id)?.slack,
        critical_share: chance.critical.get(id),
        entry,
      })),
      problems: line.problems,
    },
    text: timeLineLines(line, because, timeLineText(timelineWords.timeLineChart(line))).join('\n'),
    status: late ? 1 : 0,
  });
}

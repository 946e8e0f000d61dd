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
        return bench.ok ? timeLineReply(bench.value.book(), said) : bench;
      }),
    );
};

function timeLineReply(book: Book, said: { within?: string; plan: boolean }): Outcome<Reply> {
  const found = basketSaid(book, said);
  if (!found.ok) return found;
  const { basket, because, days } = found.value;
  const line = timeLineOf(book, basket, days);
  const { schedule, chance, pert } = line;
  const late = line.days !== undefined && schedule.days > line.days;
  return ok({
    json: {
      job: book.job,
      no_plan: because,
      days: line.days,
      likely_days: schedule.days,
      critical: schedule.critical,
      chance: chance.chance,
      days_one_in_two: chance.middle,
      days_nine_in_ten: chance.late,
      trials: chance.trials,
      pert: { mean_days: pert.mean, deviation_days: pert.deviation },
      tasks: line.tasks.map(({ id, name, kind, state, times, unsaid, needs, entry }) => ({
        id,
        name,
        kind,
        state,
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

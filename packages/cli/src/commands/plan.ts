import {
  type Assessment,
  asFittedNow,
  assessment,
  type Book,
  daysOf,
  measuringMoves,
  type Planning,
  type PlanSet,
  planningOf,
  repairPlan,
} from '@fettle/book';
import { CATALOGUE, failed, issue, type Outcome, ok, standardUncertainty } from '@fettle/core';
import type { Register } from '../registration.ts';
import type { Reply } from '../reply.ts';
import { nameOf } from '../words/judgement.ts';
import { planLines } from '../words/plan-lines.ts';

interface Said {
  readonly confidence: string;
  readonly within?: string;
  readonly oil?: string;
  readonly measure?: boolean;
}

export const registerPlan: Register = (program, run) => {
  program
    .command('plan <job>')
    .description(
      'the cheapest repairs on offer that settle what is out and bring the oil pressure back, and why',
    )
    .option('--confidence <share>', 'how sure the pressures must be, from 0.5 up to 0.999', '0.95')
    .option('--within <time>', 'time there is, such as "6 weeks"; what the job says when absent')
    .option('--oil <grade>', 'another grade of the sheet')
    .option('--measure', 'also what measuring better could save')
    .addHelpText(
      'after',
      '\nExamples:\n  fettle plan linnet\n  fettle plan linnet --confidence 0.9 --within "4 weeks" --measure',
    )
    .action((job: string, said: Said) =>
      run(async (context) => {
        const bench = await context.bench(job);
        return bench.ok ? planned(bench.value.book(), said, context.io.now()) : bench;
      }),
    );
};

function planned(book: Book, said: Said, now: number): Outcome<Reply> {
  const days = said.within === undefined ? undefined : daysOf(said.within);
  if (said.within !== undefined && days === undefined)
    return failed(
      issue(
        'offer/unreadable-time',
        '--within',
        said.within,
        'a number of days or weeks',
        `"${said.within}" is no time that can be reckoned with. Say it as "10 days" or "6 weeks".`,
      ),
    );
  const confidence = /^\d*\.?\d+$/.test(said.confidence) ? Number(said.confidence) : Number.NaN;
  const assessed = assessment(book, asFittedNow(book), CATALOGUE);
  const wishes = {
    confidence,
    now,
    ...(days !== undefined && { days }),
    ...(said.oil !== undefined && { grade: said.oil }),
  };
  try {
    const planning = planningOf(book, assessed, wishes);
    return planning.ok ? reply(planning.value, assessed, said.measure === true) : planning;
  } catch (error) {
    // A circuit may find no balance with clearances that nobody meant.
    if (!(error instanceof RangeError)) throw error;
    return failed(
      issue(
        'oil/no-balance',
        '',
        error.message,
        'clearances an engine runs with',
        `The oil circuit cannot be solved with what is on offer: ${error.message} Check the values that offers restore.`,
      ),
    );
  }
}

function reply(planning: Planning, assessed: Assessment, measure: boolean): Outcome<Reply> {
  const plan = repairPlan(planning);
  const moves = measure ? measuringMoves(planning, plan, assessed.judgements) : undefined;
  return ok({
    json: {
      job: planning.book.job,
      confidence: planning.confidence,
      oil: planning.grade,
      spending_cap: plan.cap,
      days: planning.days,
      days_past: planning.past,
      conditions: planning.conditions.map(({ running, wanted }) => ({
        speed: running.speed,
        temperature: running.temperature,
        lower: wanted.lower,
        upper: wanted.upper,
      })),
      as_now: setJson(plan.asNow),
      best: plan.best && setJson(plan.best),
      chance_with_model: plan.chanceWithModel,
      next: plan.next && setJson(plan.next),
      chosen: plan.chosen.map((one) => ({
        offer: one.offer.id,
        price: one.offer.body.price,
        ready_days: one.ready,
        settles: one.settles.map(({ judgement }) => nameOf(judgement)),
        forced_by: one.forcedBy.map(({ judgement }) => nameOf(judgement)),
        needed_by: one.neededBy,
        alone: one.alone?.map(({ value }) => value),
        chance_without: one.without?.chance,
        by_wear_only: one.byWearOnly,
      })),
      left_out: plan.leftOut.map((one) => ({
        offer: one.offer.id,
        why: one.why,
        against: one.against.map(({ requirement, offers }) => ({
          forced_by: nameOf(requirement.judgement),
          offers,
        })),
        cheapest_with: one.cheapestWith && setJson(one.cheapestWith),
      })),
      frontier: plan.frontier.map(setJson),
      pressure_only: plan.pressureOnly.map(setJson),
      left_undecided: plan.left.map(({ judgement, offers, price, cost }) => ({
        judged: nameOf(judgement),
        offers,
        price,
        chance_out: cost?.chanceOut,
        expected_cost: cost?.reuse,
      })),
      no_offer: planning.unoffered.map(nameOf),
      not_read: planning.unread.map(nameOf),
      not_in_time: plan.late.map(({ judgement }) => nameOf(judgement)),
      refused: planning.refused.map(({ offer, issues }) => ({ offer: offer.offer, issues })),
      moves: moves?.map((move) =>
        move.about === 'verdict'
          ? {
              about: nameOf(move.judgement),
              chance_in: move.chanceIn,
              extra: move.extra,
              saving: move.saving,
              next: move.next?.move,
            }
          : {
              about: 'band',
              cheaper: setJson(move.cheaper),
              less: move.less,
              saving: move.saving,
              most: move.most,
            },
      ),
    },
    text: planLines({ ...planning, ...plan }, moves).join('\n'),
    status: plan.best && (plan.cap === undefined || plan.best.price <= plan.cap) ? 0 : 1,
  });
}

const setJson = ({ offers, price, days, chance, pressures, chances }: PlanSet) => ({
  offers,
  price,
  days,
  chance,
  pressures: pressures.map((q, i) => ({
    value: q.value,
    standard_uncertainty: standardUncertainty(q),
    chance: chances[i],
  })),
});

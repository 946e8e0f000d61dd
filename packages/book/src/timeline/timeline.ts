import type { Issue } from '@fettle/core';
import type { Basket } from '../basket/basket.ts';
import type { Book } from '../fold/book.ts';
import { type DateChance, dateChance, pertOfWay } from './meeting-the-date.ts';
import { networkOf, type Schedule, scheduleOf } from './schedule.ts';
import { type ThreePoint, threePoint } from './three-point.ts';
import { daysBetween, orderedSince, timeOf, timeThere } from './time-there.ts';

export interface PlannedTask {
  readonly id: string;
  readonly name: string;
  readonly kind: 'repair' | 'supply' | 'task';
  /** Ahead, on order, under way, or over. */
  readonly state: 'ahead' | 'ordered' | 'begun' | 'over';
  /** Days since it was ordered or begun. */
  readonly gone?: number;
  /** More days have gone by than it was to take at the latest. */
  readonly overdue?: boolean;
  /** From now on. */
  readonly times: ThreePoint;
  /** Nobody said how long it takes; taken for no time. */
  readonly unsaid: boolean;
  readonly needs: readonly string[];
  readonly entry: string;
}

export interface TimeLine {
  readonly tasks: readonly PlannedTask[];
  readonly schedule: Schedule;
  /** Days there are, below zero when the date is past. */
  readonly days: number | undefined;
  /** Unix time of the job's date, where that counts [ms]. */
  readonly date?: number;
  /** Unix time from which days are counted [ms]. */
  readonly from: number;
  /** An example stands where whoever wrote it stopped. */
  readonly example: boolean;
  readonly chance: DateChance;
  readonly pert: { readonly mean: number; readonly deviation: number };
  readonly problems: readonly Issue[];
}

/**
 * What lies ahead, counted in days from today: everything begins as soon as what it needs is there. What was ordered
 * has been on its way since it was, and a task that was begun is under way since then. `now` is
 * Unix time [ms]; `days` there are, until the job's date when absent.
 *
 * @param basket  what is to be bought and done; what of it is here already takes no more time
 */
export function timeLineOf(
  book: Book,
  basket: Basket,
  { now, days }: { readonly now: number; readonly days?: number | undefined },
): TimeLine {
  const problems: Issue[] = [];
  const bought = [...basket.lines.map(({ id }) => id), ...orderedIds(book)];
  const goods = [...new Set(bought)].flatMap((id) => goodsTask(book, id, now, problems));
  const ahead = goods.map(({ id }) => id);
  const tasks = [...goods, ...ownTasks(book, ahead, timeOf(book, now), problems)];
  const network = networkOf(tasks);
  const nameOf = (id: string): string => tasks.find((task) => task.id === id)?.name ?? id;
  for (const [one, other] of network.circles)
    problems.push({
      code: 'timeline/circle',
      at: one,
      got: `${nameOf(one)} needs ${nameOf(other)}, which needs it`,
      wanted: 'tasks that do not wait for each other',
      message: `${nameOf(one)} and ${nameOf(other)} wait for each other. One of the two needs is left out; enter it anew without.`,
    });
  const times = new Map(tasks.map((task) => [task.id, task.times]));
  const schedule = scheduleOf(network, (id) => times.get(id)!.likely);
  const { days: left, past, date } = timeThere(book, now, days);
  const there = past === undefined ? left : -past;
  return {
    tasks: network.order.map((id) => tasks.find((task) => task.id === id)!),
    schedule,
    days: there,
    ...(date !== undefined && { date }),
    from: timeOf(book, now),
    example: book.opened?.body.example === true,
    chance: dateChance(network, times, there),
    pert: pertOfWay(schedule, times),
    problems,
  };
}

const NO_TIME: ThreePoint = { soonest: 0, likely: 0, latest: 0, spread: false };

const orderedIds = (book: Book): string[] => book.orders.flatMap(({ body }) => body.supply ?? []);

function goodsTask(book: Book, id: string, now: number, problems: Issue[]): PlannedTask[] {
  const offer = book.offers.get(id);
  const supply = book.supplies.get(id);
  const said = offer ?? supply;
  if (!said) return [];
  const { body, entry } = said;
  const ordered = orderedSince(book, id, now);
  const isHere = ordered?.here === true;
  const times = timesOf(
    body.name,
    { likely: body.lead_time, soonest: body.soonest, latest: body.latest },
    problems,
  );
  return [
    {
      id,
      name: body.name,
      kind: offer ? 'repair' : 'supply',
      state: isHere ? 'over' : ordered ? 'ordered' : 'ahead',
      times: isHere ? NO_TIME : less(times, ordered?.gone ?? 0),
      ...(ordered && !isHere && { gone: ordered.gone, overdue: ordered.gone > times.latest }),
      unsaid: body.lead_time === undefined && !isHere,
      needs: offer?.body.needs ?? [],
      entry: entry.id,
    },
  ];
}

const ownTasks = (book: Book, goods: readonly string[], now: number, problems: Issue[]): PlannedTask[] =>
  [...book.tasks.values()].map(({ entry, body }) => {
    const begun = body.began === undefined ? undefined : Date.parse(body.began);
    const gone = begun === undefined ? 0 : Math.max(0, daysBetween(begun, now));
    const said = { likely: body.takes, soonest: body.soonest, latest: body.latest };
    const times = body.done === true ? NO_TIME : timesOf(body.name, said, problems);
    return {
      id: body.task,
      name: body.name,
      kind: 'task',
      state: body.done === true ? 'over' : begun !== undefined ? 'begun' : 'ahead',
      times: less(times, gone),
      ...(begun !== undefined && body.done !== true && { gone, overdue: gone > times.latest }),
      unsaid: false,
      // What is under way waits for nothing any more.
      needs: begun === undefined ? [...(body.needs ?? []), ...(body.after_all === true ? goods : [])] : [],
      entry: entry.id,
    };
  });

/** What is left of a time when some of it has gone by. What is overdue may come any day, and is counted as at once. */
function less({ soonest, likely, latest }: ThreePoint, gone: number): ThreePoint {
  const left = (days: number): number => Math.max(0, days - gone);
  const [least, most] = [left(soonest), left(latest)];
  return { soonest: least, likely: left(likely), latest: most, spread: most > least };
}

function timesOf(name: string, said: Parameters<typeof threePoint>[0], problems: Issue[]): ThreePoint {
  const times = threePoint(said);
  if (times) return times;
  problems.push({
    code: 'timeline/unreadable-time',
    at: name,
    got: [said.soonest, said.likely, said.latest].filter((one) => one !== undefined).join(', '),
    wanted: 'days or weeks, from the soonest to the latest',
    message: `The times said for ${name} do not read; it is taken for no time. Enter it anew.`,
  });
  return NO_TIME;
}

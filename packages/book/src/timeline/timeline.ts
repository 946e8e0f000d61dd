import type { Issue } from '@fettle/core';
import type { Basket } from '../basket/basket.ts';
import type { Book } from '../fold/book.ts';
import { daysOf } from '../plan/lead-time.ts';
import { type DateChance, dateChance, pertOfWay } from './meeting-the-date.ts';
import { networkOf, type Schedule, scheduleOf } from './schedule.ts';
import { type ThreePoint, threePoint } from './three-point.ts';

export interface PlannedTask {
  readonly id: string;
  readonly name: string;
  readonly kind: 'repair' | 'supply' | 'task';
  /** Ahead, on order, or over. */
  readonly state: 'ahead' | 'ordered' | 'over';
  readonly times: ThreePoint;
  /** Nobody said how long it takes; taken for no time. */
  readonly unsaid: boolean;
  readonly needs: readonly string[];
  readonly entry: string;
}

export interface TimeLine {
  readonly tasks: readonly PlannedTask[];
  readonly schedule: Schedule;
  readonly days: number | undefined;
  readonly chance: DateChance;
  readonly pert: { readonly mean: number; readonly deviation: number };
  readonly problems: readonly Issue[];
}

/**
 * What lies ahead, counted in days from today: everything begins as soon as what it needs is there.
 *
 * @param basket  what is to be bought and done; what of it is here already takes no more time
 * @param days    there are; what the job says when absent
 */
export function timeLineOf(book: Book, basket: Basket, days?: number): TimeLine {
  const problems: Issue[] = [];
  const bought = [...basket.lines.map(({ id }) => id), ...orderedIds(book)];
  const goods = [...new Set(bought)].flatMap((id) => goodsTask(book, id, problems));
  const ahead = goods.map(({ id }) => id);
  const tasks = [...goods, ...ownTasks(book, ahead, problems)];
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
  const due = book.opened?.body.due;
  const there = days ?? (due === undefined ? undefined : daysOf(due));
  return {
    tasks: network.order.map((id) => tasks.find((task) => task.id === id)!),
    schedule,
    days: there,
    chance: dateChance(network, times, there),
    pert: pertOfWay(schedule, times),
    problems,
  };
}

const NO_TIME: ThreePoint = { soonest: 0, likely: 0, latest: 0, spread: false };

const orderedIds = (book: Book): string[] => book.orders.flatMap(({ body }) => body.supply ?? []);

function goodsTask(book: Book, id: string, problems: Issue[]): PlannedTask[] {
  const offer = book.offers.get(id);
  const supply = book.supplies.get(id);
  const said = offer ?? supply;
  if (!said) return [];
  const { body, entry } = said;
  const orders = book.orders.filter((one) => one.body.supply === id);
  const isHere = orders.length > 0 && orders.every(({ receipts }) => receipts.length > 0);
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
      state: isHere ? 'over' : orders.length > 0 ? 'ordered' : 'ahead',
      times: isHere ? NO_TIME : times,
      unsaid: body.lead_time === undefined && !isHere,
      needs: offer?.body.needs ?? [],
      entry: entry.id,
    },
  ];
}

const ownTasks = (book: Book, goods: readonly string[], problems: Issue[]): PlannedTask[] =>
  [...book.tasks.values()].map(({ entry, body }) => ({
    id: body.task,
    name: body.name,
    kind: 'task',
    state: body.done === true ? 'over' : 'ahead',
    times:
      body.done === true
        ? NO_TIME
        : timesOf(body.name, { likely: body.takes, soonest: body.soonest, latest: body.latest }, problems),
    unsaid: false,
    needs: [...(body.needs ?? []), ...(body.after_all === true ? goods : [])],
    entry: entry.id,
  }));

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

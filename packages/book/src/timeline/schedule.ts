/** Something that takes time and may have to wait for others. */
export interface Timed {
  readonly id: string;
  readonly needs: readonly string[];
}

export interface Network {
  /** Each after all it needs. */
  readonly order: readonly string[];
  readonly before: ReadonlyMap<string, readonly string[]>;
  /** Needs left out because they would close a circle. */
  readonly circles: readonly (readonly [string, string])[];
}

/** Tasks in an order in which they can be done; what is not among them is needed no more. */
export function networkOf(tasks: readonly Timed[]): Network {
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const state = new Map<string, 'open' | 'done'>();
  const order: string[] = [];
  const before = new Map<string, string[]>();
  const circles: [string, string][] = [];
  const visit = (task: Timed): void => {
    state.set(task.id, 'open');
    const kept: string[] = [];
    for (const id of new Set(task.needs)) {
      const other = byId.get(id);
      if (!other) continue;
      if (state.get(id) === 'open') {
        circles.push([task.id, id]);
        continue;
      }
      if (!state.has(id)) visit(other);
      kept.push(id);
    }
    before.set(task.id, kept);
    state.set(task.id, 'done');
    order.push(task.id);
  };
  for (const task of tasks) if (!state.has(task.id)) visit(task);
  return { order, before, circles };
}

interface Slot {
  readonly start: number;
  readonly finish: number;
  /** How much later it may finish without making the whole later. */
  readonly slack: number;
}

export interface Schedule {
  readonly slots: ReadonlyMap<string, Slot>;
  readonly days: number;
  /** One longest way through, from its beginning. */
  readonly critical: readonly string[];
}

/** Earliest start and finish forwards, slack backwards, with times that are certain. */
export function scheduleOf({ order, before }: Network, days: (id: string) => number): Schedule {
  const finish = new Map<string, number>();
  const start = new Map<string, number>();
  for (const id of order) {
    const begins = Math.max(0, ...before.get(id)!.map((one) => finish.get(one)!));
    start.set(id, begins);
    finish.set(id, begins + days(id));
  }
  const end = Math.max(0, ...finish.values());
  const latest = new Map(order.map((id) => [id, end]));
  for (const id of [...order].reverse())
    for (const one of before.get(id)!)
      latest.set(one, Math.min(latest.get(one)!, latest.get(id)! - days(id)));
  const slots = new Map(
    order.map((id) => [
      id,
      { start: start.get(id)!, finish: finish.get(id)!, slack: latest.get(id)! - finish.get(id)! },
    ]),
  );
  return { slots, days: end, critical: longestWay(order, before, finish, end) };
}

function longestWay(
  order: readonly string[],
  before: Network['before'],
  finish: ReadonlyMap<string, number>,
  end: number,
): string[] {
  const way: string[] = [];
  let at = [...order].reverse().find((id) => finish.get(id) === end);
  while (at !== undefined) {
    way.unshift(at);
    const waited: readonly string[] = before.get(at)!;
    at = [...waited].sort((a, b) => finish.get(b)! - finish.get(a)!)[0];
  }
  return way;
}

/** When all is done, for times drawn anew each trial; `times` goes by the place of a task in the order. */
export function finishOf({ order, before }: Network): (times: ArrayLike<number>) => Float64Array {
  const place = new Map(order.map((id, i) => [id, i]));
  const waits = order.map((id) => before.get(id)!.map((one) => place.get(one)!));
  const finish = new Float64Array(order.length);
  return (times) => {
    for (let i = 0; i < waits.length; i++) {
      let begins = 0;
      for (const one of waits[i]!) if (finish[one]! > begins) begins = finish[one]!;
      finish[i] = begins + times[i]!;
    }
    return finish;
  };
}

/** One reading to be taken. */
export interface Task {
  readonly minutes: number;
  /** What has to be got out and set before it, and what has to be gone to; the same for the next costs nothing more. */
  readonly tool: string;
  readonly part: string;
}

/** Something that is decided once all its readings are taken. */
export interface Goal {
  /** Indices of tasks. */
  readonly needs: readonly number[];
  /** What deciding it is worth, times the chance that its readings do decide. */
  readonly worth: number;
}

export interface SetUps {
  readonly tool: (tool: string) => number;
  readonly part: number;
}

export interface Ordered {
  readonly task: number;
  /** When it is done, from the start [min]. */
  readonly at: number;
  /** Of it, what went on getting the instrument and the part ready. */
  readonly setUp: number;
  /** Goals met with it. */
  readonly meets: readonly number[];
}

/** Minutes each task ends at, set-ups paid where instrument or part change. */
export function timed(
  order: readonly number[],
  tasks: readonly Task[],
  goals: readonly Goal[],
  setUps: SetUps,
): Ordered[] {
  const open = goals.map(({ needs }) => new Set(needs));
  let now = 0;
  let [tool, part]: [string?, string?] = [];
  return order.map((index) => {
    const task = tasks[index]!;
    const setUp = (task.tool === tool ? 0 : setUps.tool(task.tool)) + (task.part === part ? 0 : setUps.part);
    now += setUp + task.minutes;
    [tool, part] = [task.tool, task.part];
    const meets = open.flatMap((left, g) => (left.delete(index) && left.size === 0 ? [g] : []));
    return { task: index, at: now, setUp, meets };
  });
}

/**
 * How late what matters is decided: Σ worth × minutes until it is. The least is the order that decides most soonest.
 * Without set-ups the rule it leads to is the most worth a minute first (W. E. Smith 1956, from memory).
 */
export const lateness = (ordered: readonly Ordered[], goals: readonly Goal[]): number =>
  ordered.reduce((sum, { at, meets }) => sum + meets.reduce((own, g) => own + goals[g]!.worth * at, 0), 0);

/** Beyond so many tasks moving them one by one is no longer tried: it would be felt. */
const IMPROVE_TO = 100;
const MOST_ROUNDS = 12;

/**
 * The order of readings that decides most soonest: group after group, the next being that with the most worth decided a
 * minute. A group is what one goal still needs, or what all goals of one instrument, of one part, or of one instrument
 * on one part still need, so a set-up is weighed against all that it serves. Groups, then single readings, are moved
 * while that helps.
 * The same tasks and goals always give the same order.
 */
export function orderOf(tasks: readonly Task[], goals: readonly Goal[], setUps: SetUps): Ordered[] {
  const reachable = goals.filter(({ needs, worth }) => needs.length > 0 && worth > 0);
  const blocks = greedy(tasks, reachable, setUps);
  const whole = improved(blocks, tasks, reachable, setUps);
  const runs = improved(runsOf(whole.flat(), tasks), tasks, reachable, setUps);
  const singles = runs.flat().map((index) => [index]);
  const better = singles.length > IMPROVE_TO ? runs : improved(singles, tasks, reachable, setUps);
  return timed(tidied(better.flat(), tasks, reachable, setUps), tasks, goals, setUps);
}

function greedy(tasks: readonly Task[], goals: readonly Goal[], setUps: SetUps): number[][] {
  const done = new Set<number>();
  const blocks: number[][] = [];
  let last: Task | undefined;
  for (;;) {
    const open = goals.filter(({ needs }) => needs.some((i) => !done.has(i)));
    if (open.length === 0) return blocks;
    const left = open.map(({ needs }) => needs.filter((i) => !done.has(i)));
    let best: { block: number[]; rate: number } | undefined;
    for (const wanted of groupsOf(tasks, left)) {
      const block = inRuns(wanted, tasks, last);
      const taken = new Set(block);
      const worth = open.reduce(
        (sum, goal, g) => sum + (left[g]!.every((i) => taken.has(i)) ? goal.worth : 0),
        0,
      );
      const rate = worth / minutesFor(block, tasks, setUps, last);
      if (!best || rate > best.rate * (1 + 1e-9)) best = { block, rate };
    }
    blocks.push(best!.block);
    for (const i of best!.block) done.add(i);
    last = tasks[best!.block.at(-1)!];
  }
}

/** Sets of tasks worth weighing, each once. */
function groupsOf(tasks: readonly Task[], left: readonly (readonly number[])[]): number[][] {
  const groups = new Map<string, Set<number>>();
  const add = (key: string, some: readonly number[]): void => {
    const group = groups.get(key) ?? new Set();
    for (const i of some) group.add(i);
    groups.set(key, group);
  };
  left.forEach((needs, g) => {
    add(`goal ${g}`, needs);
    const tools = new Set(needs.map((i) => tasks[i]!.tool));
    const parts = new Set(needs.map((i) => tasks[i]!.part));
    const [tool] = tools;
    const [part] = parts;
    if (tools.size === 1) add(`tool ${tool}`, needs);
    if (parts.size === 1) add(`part ${part}`, needs);
    if (tools.size === 1 && parts.size === 1) add(`both ${tool} ${part}`, needs);
    add(`tools ${[...tools].sort().join()}`, needs);
  });
  return [
    ...new Map([...groups.values()].map((set) => [[...set].sort((a, b) => a - b).join(), set])).values(),
  ].map((set) => [...set]);
}

/** What one instrument reads together, part by part, beginning with what is in hand, else in the order of the bench. */
function inRuns(wanted: readonly number[], tasks: readonly Task[], last: Task | undefined): number[] {
  const first = new Map<string, number>();
  const sorted = [...wanted].sort((a, b) => a - b);
  for (const i of sorted) {
    const { tool, part } = tasks[i]!;
    if (!first.has(tool)) first.set(tool, tool === last?.tool ? -1 : i);
    const both = `${tool}\n${part}`;
    if (!first.has(both)) first.set(both, part === last?.part ? -1 : i);
  }
  const rank = (i: number): readonly [number, number] => {
    const { tool, part } = tasks[i]!;
    return [first.get(tool)!, first.get(`${tool}\n${part}`)!];
  };
  return sorted.sort((a, b) => rank(a)[0] - rank(b)[0] || rank(a)[1] - rank(b)[1] || a - b);
}

function minutesFor(
  block: readonly number[],
  tasks: readonly Task[],
  setUps: SetUps,
  last: Task | undefined,
): number {
  let { tool, part } = last ?? { tool: undefined, part: undefined };
  return block.reduce((sum, i) => {
    const task = tasks[i]!;
    const own =
      task.minutes +
      (task.tool === tool ? 0 : setUps.tool(task.tool)) +
      (task.part === part ? 0 : setUps.part);
    [tool, part] = [task.tool, task.part];
    return sum + own;
  }, 0);
}

/** An order cut where the instrument or the part changes. */
function runsOf(order: readonly number[], tasks: readonly Task[]): number[][] {
  const runs: number[][] = [];
  let before: Task | undefined;
  for (const index of order) {
    const task = tasks[index]!;
    if (before && before.tool === task.tool && before.part === task.part) runs.at(-1)!.push(index);
    else runs.push([index]);
    before = task;
  }
  return runs;
}

/** What one instrument reads without a break in the order of the bench, wherever that decides nothing later. */
function tidied(
  order: readonly number[],
  tasks: readonly Task[],
  goals: readonly Goal[],
  setUps: SetUps,
): readonly number[] {
  const late = latenessOf(tasks, goals, setUps);
  let best = [...order];
  for (let from = 0; from < best.length; ) {
    let to = from + 1;
    while (to < best.length && tasks[best[to]!]!.tool === tasks[best[from]!]!.tool) to++;
    const run = best.slice(from, to);
    for (const tidy of [[...run].sort((a, b) => a - b), inRuns(run, tasks, undefined)]) {
      const tried = [...best.slice(0, from), ...tidy, ...best.slice(to)];
      if (late([tried]) <= late([best]) * (1 + 1e-9)) best = tried;
    }
    from = to;
  }
  return best;
}

/** `lateness` of an order cut into pieces, for asking many times. */
function latenessOf(tasks: readonly Task[], goals: readonly Goal[], setUps: SetUps) {
  const at = new Float64Array(tasks.length);
  return (pieces: readonly (readonly number[])[]): number => {
    let now = 0;
    let [tool, part]: [string?, string?] = [];
    for (const piece of pieces)
      for (const index of piece) {
        const task = tasks[index]!;
        if (task.tool !== tool) now += setUps.tool(task.tool);
        if (task.part !== part) now += setUps.part;
        now += task.minutes;
        [tool, part] = [task.tool, task.part];
        at[index] = now;
      }
    let sum = 0;
    for (const { needs, worth } of goals) {
      let last = 0;
      for (const index of needs) last = Math.max(last, at[index]!);
      sum += worth * last;
    }
    return sum;
  };
}

/** Any piece moved to any other turn, as long as that decides more sooner. */
function improved(
  pieces: readonly (readonly number[])[],
  tasks: readonly Task[],
  goals: readonly Goal[],
  setUps: SetUps,
): number[][] {
  const late = latenessOf(tasks, goals, setUps);
  let best = pieces.map((piece) => [...piece]);
  if (best.length > IMPROVE_TO) return best;
  let least = late(best);
  let isBetter = true;
  for (let round = 0; isBetter && round < MOST_ROUNDS; round++) {
    isBetter = false;
    for (let i = 0; i < best.length; i++)
      for (let j = 0; j < best.length; j++) {
        if (i === j) continue;
        const moved = best.filter((_, k) => k !== i);
        moved.splice(j, 0, best[i]!);
        const now = late(moved);
        if (now < least * (1 - 1e-9)) [best, least, isBetter] = [moved, now, true];
      }
  }
  return best;
}

import { monteCarlo, type Uncertain } from '@fettle/core';
import { finishOf, type Network, type Schedule } from './schedule.ts';
import { pertMoments, type ThreePoint, triangularDays } from './three-point.ts';

export interface DateChance {
  /** Days by which one in ten, one in two and nine in ten of the trials were done. */
  readonly early: number;
  readonly middle: number;
  readonly late: number;
  /** Share of the trials done by the date; absent without one. */
  readonly chance?: number;
  /** Share of the trials in which a task lay on the longest way, by task. */
  readonly critical: ReadonlyMap<string, number>;
  readonly trials: number;
}

const TRIALS = 20_000;
const SEED = 1959;

/** Even between 0 and 1, as a quantity that can be drawn. */
const even = (source: string): Uncertain => ({
  value: 0.5,
  terms: [{ source, u: 1 / Math.sqrt(12), dof: Number.POSITIVE_INFINITY, shape: 'rectangular' }],
});

/**
 * The chance of meeting a date, by drawing every time from its triangle and going through the network again, the same
 * draws each time. Times are drawn independently of one another: a shop that is late with one thing is late with all,
 * which this does not know.
 */
export function dateChance(
  network: Network,
  times: ReadonlyMap<string, ThreePoint>,
  due: number | undefined,
): DateChance {
  const { order, before } = network;
  const finish = finishOf(network);
  const place = new Map(order.map((id, i) => [id, i]));
  const points = order.map((id) => times.get(id)!);
  const strayed = order.flatMap((_, i) => (points[i]!.spread ? [i] : []));
  const drawn = Float64Array.from(points, ({ likely }) => likely);
  const met = new Map(order.map((id) => [id, 0]));
  let inTime = 0;
  let trials = 0;
  const through = (u: readonly number[]): number => {
    strayed.forEach((i, k) => {
      drawn[i] = triangularDays(points[i]!, u[k]!);
    });
    const done = finish(drawn);
    let last = -1;
    for (let i = 0; i < done.length; i++) if (last < 0 || done[i]! > done[last]!) last = i;
    const end = last < 0 ? 0 : done[last]!;
    trials += 1;
    if (due !== undefined && end <= due + 1e-9) inTime += 1;
    for (let at = last; at >= 0; ) {
      met.set(order[at]!, met.get(order[at]!)! + 1);
      const waited: readonly string[] = before.get(order[at]!)!;
      at = waited.reduce((far, id) => {
        const i = place.get(id)!;
        return far < 0 || done[i]! > done[far]! ? i : far;
      }, -1);
    }
    return end;
  };
  const share = (count: number): number => count / trials;
  const spread =
    strayed.length === 0
      ? undefined
      : monteCarlo(
          through,
          strayed.map((i) => even(order[i]!)),
          { trials: TRIALS, seed: SEED },
        );
  const certain = spread ? 0 : through([]);
  return {
    early: spread?.quantile(0.1) ?? certain,
    middle: spread?.quantile(0.5) ?? certain,
    late: spread?.quantile(0.9) ?? certain,
    ...(due !== undefined && { chance: share(inTime) }),
    critical: new Map([...met].map(([id, count]) => [id, share(count)])),
    trials,
  };
}

/** The classic figure beside it: the longest way alone, its times by the rule of PERT, their sum taken as normal. */
export function pertOfWay(
  { critical }: Schedule,
  times: ReadonlyMap<string, ThreePoint>,
): { readonly mean: number; readonly deviation: number } {
  const moments = critical.map((id) => pertMoments(times.get(id)!));
  return {
    mean: moments.reduce((sum, { mean }) => sum + mean, 0),
    deviation: Math.sqrt(moments.reduce((sum, { variance }) => sum + variance, 0)),
  };
}

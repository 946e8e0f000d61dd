import { linear, type Uncertain } from '@fettle/core';
import type { FilledCircuit, FilledParameter } from './circuit.ts';
import { fairShares, holds, type Sampling, sharesOf } from './fair-shares.ts';
import { gaugeAt, presentValue } from './gauge-at.ts';
import { type Running, repairsOf } from './pressure.ts';

/** What one repair's worn parts carry of the loss of pressure, everything as found but for the treads lifted. */
export interface Tread {
  readonly repair: string;
  /** Its fair share of the loss [Pa], with the doubt that the readings leave in it to first order. */
  readonly share: Uncertain;
  /** Standard error of the share where orders were drawn, else zero [Pa]. */
  readonly error: number;
  /** The gauge with this repair made besides those lifted [Pa]. */
  readonly with: number;
  readonly lifted: boolean;
  /** False: nothing it rests on was measured, so it stands as new and carries nothing. */
  readonly measured: boolean;
}

/** From the pressure as new down to the pressure now; the treads add up to the difference. */
export interface Stair {
  /** [Pa] */
  readonly asNew: number;
  /** As found, with the treads lifted [Pa]. */
  readonly now: number;
  /** As found, none lifted [Pa]. */
  readonly asFound: number;
  /** One a repair, in the order of the circuit. */
  readonly treads: readonly Tread[];
  /** Whether every order of repair was gone through. */
  readonly exact: boolean;
  /** Orders drawn, where not. */
  readonly orders?: number;
  /** False: working the doubt of the shares out would have taken too many solves. */
  readonly doubted: boolean;
}

export interface StairWish extends Partial<Sampling> {
  /** Repairs already made in thought. */
  readonly lifted?: readonly string[];
  /** Solves that may be spent on the doubt of the treads; none for a stair that follows a finger. */
  readonly doubtSolves?: number;
}

const DOUBT_SOLVES = 20_000;

/**
 * The pressure stair: how the loss from as new to as found is shared among the repairs, each by the average, over
 * every order of repair, of what it brings. Oil that one leak no longer takes feeds the others, so what a repair
 * brings alone falls short of its share, and what it brings last goes beyond.
 *
 * A lifted tread whose repair brings its parts back to as new carries nothing any more; where a repair leaves
 * something (ground and fitted at another clearance), that remains as its tread.
 *
 * @throws RangeError  when the network finds no balance
 */
export function pressureStair(circuit: FilledCircuit, running: Running, wish: StairWish = {}): Stair {
  const { parameters } = circuit;
  const lifted = new Set(wish.lifted ?? []);
  const gauge = gaugeAt(circuit)(running);
  const present = parameters.map((parameter) => presentValue(parameter, lifted));
  const repairs = repairsOf(circuit);
  // Whoever stands as new already carries nothing, in any order.
  const players = repairs.filter((repair) =>
    parameters.some((parameter, i) => parameter.repair === repair && present[i] !== parameter.nominal),
  );
  const worn = parameters.map(({ repair }) => players.indexOf(repair));
  const values = Float64Array.from(present);
  const put = (restored: number): void => {
    for (let i = 0; i < values.length; i++)
      values[i] = worn[i]! >= 0 && holds(restored, worn[i]!) ? parameters[i]!.nominal : present[i]!;
  };
  const worth = (restored: number): number => {
    put(restored);
    return gauge(values);
  };
  const found = fairShares(players.length, worth, wish);
  const pressureWith = (made: ReadonlySet<string>): number =>
    gauge(parameters.map((parameter) => presentValue(parameter, made)));
  const doubtful = parameters.flatMap((parameter, i) =>
    worn[i]! >= 0 && !lifted.has(parameter.repair) && parameter.measured?.terms.length ? [i] : [],
  );
  const solves = doubtful.length * 2 ** players.length;
  const doubted = found.exact && solves <= (wish.doubtSolves ?? DOUBT_SOLVES);
  const slopes = doubted
    ? doubtful.map((i) => ({
        of: parameters[i]!.measured!,
        slopes: shareSlopes(
          players.length,
          worn[i]!,
          (set, by) => {
            put(set);
            values[i]! += by;
            return gauge(values);
          },
          uOf(parameters[i]!),
        ),
      }))
    : [];
  return {
    asNew: gauge(parameters.map(({ nominal }) => nominal)),
    now: pressureWith(lifted),
    asFound: pressureWith(new Set()),
    treads: repairs.map((repair) => {
      const player = players.indexOf(repair);
      const doubt = linear(slopes.map(({ of, slopes }) => ({ factor: slopes[player] ?? 0, of })));
      return {
        repair,
        share: { value: found.shares[player] ?? 0, terms: player < 0 ? [] : doubt.terms },
        error: found.errors[player] ?? 0,
        with: pressureWith(new Set([...lifted, repair])),
        lifted: lifted.has(repair),
        measured: parameters.some((parameter) => parameter.repair === repair && parameter.measured),
      };
    }),
    exact: found.exact,
    ...(found.orders !== undefined && { orders: found.orders }),
    doubted,
  };
}

const uOf = ({ measured }: FilledParameter): number => Math.hypot(...measured!.terms.map(({ u }) => u));

/**
 * How every share moves with one parameter: central differences one standard uncertainty wide, as elsewhere. Sets
 * in which its repair is made do not know it.
 */
function shareSlopes(
  n: number,
  player: number,
  moved: (set: number, by: number) => number,
  u: number,
): Float64Array {
  const slopes = new Float64Array(2 ** n);
  for (let k = 0; k < slopes.length; k++) {
    const set = k ^ (k >> 1);
    if (holds(set, player)) continue;
    slopes[set] = (moved(set, u) - moved(set, -u)) / (2 * u);
  }
  return sharesOf(n, slopes);
}

/**
 * Figures rounded so that they still add up: those that lose most by rounding down are rounded up.
 *
 * @param whole  what they add up to as printed, a multiple of the step
 * @param step   of the last digit printed
 */
export function roundedToSum(figures: readonly number[], whole: number, step: number): number[] {
  if (figures.length === 0) return [];
  const floors = figures.map((figure) => Math.floor(figure / step + 1e-9));
  let left = Math.round(whole / step) - floors.reduce((sum, floor) => sum + floor, 0);
  // A figure of nothing stays nothing as long as others can take what is left.
  const order = figures
    .map((figure, i) => ({ i, rest: figure / step - floors[i]! }))
    .sort((a, b) => b.rest - a.rest);
  const able = order.filter(({ rest }) => rest > 1e-6);
  const takers = able.length > 0 ? able : order;
  for (let k = 0; left > 0; k++, left--) floors[takers[k % takers.length]!.i]! += 1;
  for (let k = 0; left < 0; k++, left++) floors[takers[takers.length - 1 - (k % takers.length)]!.i]! -= 1;
  return floors.map((floor) => floor * step);
}

import { type FedFilm, FINE, type Fineness, fedFilm, solvedAt, startAfresh } from './fed-film.ts';
import { greatestPressure } from './plain-film.ts';
import { FED, type FilmEffect } from './ruptured-film.ts';
import { settledAnyhow } from './settled-journal.ts';
import { loadOrSommerfeld, shortAttitude, shortEccentricity, turnsWithGap } from './short-start.ts';
import type { BearingShape } from './supply.ts';

/**
 * A bearing fed by groove or hole, its film conserving mass, without dimensions: lengths in journal radii, gaps in
 * radial clearances c, pressures in μ ω R²/c², forces in μ ω R⁴/c², flows in c ω R².
 */
export interface FedBearing {
  readonly eccentricity: number;
  /** φ from the load line to the narrowest gap, in the sense of rotation [rad] */
  readonly attitude: number;
  readonly load: number;
  /** S = (r/c)² μ N/P, P over the whole length. */
  readonly sommerfeld: number;
  /** p* */
  readonly supply: number;
  /** Out of both edges; and out of groove or hole, which is as much. */
  readonly sideFlow: number;
  readonly feedFlow: number;
  /** |feed − side| over the flow: what the solution leaves of the balance of mass. */
  readonly imbalance: number;
  /** (r/c) f, of the film there is: streamers where it is ruptured, nothing over grooves. */
  readonly friction: number;
  /** Greatest pressure, and its angle from the load [rad] */
  readonly peak: number;
  readonly peakAt: number;
  readonly field: FilmField;
}

/** Pressure and fill over one half of the bearing, for a picture; the other half is its mirror image. */
export interface FilmField {
  /** Of the slices, from the load line in the sense of rotation, 0 to under 2π, rising [rad] */
  readonly angles: readonly number[];
  /** Distance of the rows from the middle plane, in half lengths: the last is 1. */
  readonly rows: readonly number[];
  /** By slice, then by row. */
  readonly pressure: readonly (readonly number[])[];
  /** 1 in a full film. */
  readonly fill: readonly (readonly number[])[];
  /** Whether the point lies on a groove or hole. */
  readonly fed: readonly (readonly boolean[])[];
}

const TURN = 2 * Math.PI;
const wrapped = (angle: number): number => angle - TURN * Math.floor(angle / TURN);
/** Into −π to π. */
const signed = (angle: number): number => wrapped(angle + Math.PI) - Math.PI;

/** Where the journal settles under a load given as S; undefined when no balance was found. */
export function fedBearingFor(
  shape: BearingShape,
  sommerfeld: number,
  supply: number,
  fineness: Fineness = FINE,
): FedBearing | undefined {
  const bearing = fedFilm(shape, fineness);
  const load = loadOrSommerfeld(sommerfeld, shape.lengthOverDiameter);
  const e = shortEccentricity(shape, load);
  const start = { eccentricity: Math.min(0.97, e), attitude: shortAttitude(e) };
  const settled = settledAnyhow(bearing, load, supply, start, 3e-5);
  return settled && described(bearing, settled.eccentricity, settled.attitude, settled.effect);
}

/**
 * The film at an eccentricity ratio given: the attitude is the one at which the force of the film lies in the load
 * line, to which groove or hole are tied. Undefined when there is none.
 */
export function fedBearingAt(
  shape: BearingShape,
  e: number,
  supply: number,
  fineness: Fineness = FINE,
): FedBearing | undefined {
  const bearing = fedFilm(shape, fineness);
  let effect: FilmEffect | undefined;
  const askew = (attitude: number): number => {
    let solved = solvedAt(bearing, e, attitude, supply);
    if (!solved) {
      startAfresh(bearing);
      solved = solvedAt(bearing, e, attitude, supply);
    }
    if (!solved) return Number.NaN;
    effect = solved.effect;
    return signed(Math.atan2(effect.across, -effect.along) - attitude);
  };
  let a = shortAttitude(e);
  let fa = askew(a);
  // A full groove turns with the gap: its force does not depend on where the load is said to lie.
  if (turnsWithGap(shape)) a += fa;
  else {
    const found = crossing(askew, a, fa);
    if (found === undefined) return undefined;
    a = found;
  }
  fa = askew(a);
  return Number.isNaN(fa) || effect === undefined || Math.abs(fa) > 1e-3
    ? undefined
    : described(bearing, e, a, effect);
}

/** Root of an angle's error near a start: outwards in steps until its sign changes, then regula falsi. */
function crossing(f: (x: number) => number, start: number, first: number): number | undefined {
  if (Number.isNaN(first)) return undefined;
  let [x0, f0, x1, f1] = [start, first, start, first];
  const step = 0.25 * Math.sign(first || 1);
  for (let k = 0; f1 > 0 === first > 0 || Math.abs(f1 - f0) > Math.PI; k++) {
    if (k > 13) return undefined;
    [x0, f0] = [x1, f1];
    x1 = x0 + (k === 0 ? first : step);
    f1 = f(x1);
    if (Number.isNaN(f1)) return undefined;
  }
  for (let k = 0; k < 40 && Math.abs(f1) > 1e-6; k++) {
    const x = x1 - (f1 * (x1 - x0)) / (f1 - f0);
    const now = f(x);
    if (Number.isNaN(now)) return undefined;
    if (now > 0 !== f1 > 0) [x0, f0] = [x1, f1];
    else f0 /= 2;
    [x1, f1] = [x, now];
  }
  return x1;
}

function described(bearing: FedFilm, e: number, attitude: number, effect: FilmEffect): FedBearing {
  const load = Math.hypot(effect.along, effect.across);
  const { lengthOverDiameter } = bearing.shape;
  const { at, pressure } = greatestPressure(bearing.film);
  // The load lies at θ = π − φ.
  const fromLoad = (theta: number): number => wrapped(theta - Math.PI + attitude);
  return {
    eccentricity: e,
    attitude,
    load,
    sommerfeld: loadOrSommerfeld(load, lengthOverDiameter),
    supply: bearing.supply,
    sideFlow: effect.side,
    feedFlow: effect.feed,
    imbalance: Math.abs(effect.imbalance),
    friction: effect.friction / load,
    peak: pressure,
    peakAt: fromLoad(at),
    field: fieldOf(bearing, fromLoad),
  };
}

function fieldOf({ grid, film, shape }: FedFilm, fromLoad: (theta: number) => number): FilmField {
  const order = Array.from({ length: grid.slices }, (_, i) => ({ i, angle: fromLoad(grid.theta[i]!) })).sort(
    (one, other) => one.angle - other.angle,
  );
  const by = <T>(value: (at: number) => T): T[][] =>
    order.map(({ i }) => Array.from({ length: grid.rows }, (_, j) => value(i * grid.rows + j)));
  return {
    angles: order.map(({ angle }) => angle),
    rows: Array.from(grid.z, (z) => z / shape.lengthOverDiameter),
    pressure: by((at) => film.p[at]!),
    fill: by((at) => 1 - film.lack[at]!),
    fed: by((at) => film.kind[at] === FED),
  };
}

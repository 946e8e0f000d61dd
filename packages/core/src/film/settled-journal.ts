import { type FedFilm, solvedAt, startAfresh } from './fed-film.ts';
import type { FilmEffect } from './ruptured-film.ts';
import { shortLoad } from './short-start.ts';

/** Where the journal of a loaded bearing runs, and what the film does there. */
export interface SettledJournal {
  /** ε, eccentricity over radial clearance. */
  readonly eccentricity: number;
  /** φ from the load line to the narrowest gap, in the sense of rotation [rad] */
  readonly attitude: number;
  readonly effect: FilmEffect;
  /** How often the film was solved for it. */
  readonly solves: number;
}

/** A start for the search: the answer of a neighbour, and how its force changed with its place. */
export interface JournalStart {
  readonly eccentricity: number;
  readonly attitude: number;
}

/** ε to which the journal is sought: beyond, no film is left to speak of. */
const CLOSEST = 0.998;

const rangeOf = (e: number): number => Math.log((1 + e) / (1 - e));
const FARTHEST = rangeOf(CLOSEST);

/**
 * How the unbalanced force of a short bearing changes with the journal's place, near its balance: good enough to
 * begin with. Its force goes as ε/(1−ε²)² √(16 ε² + π² (1−ε²)), its attitude is atan(π √(1−ε²)/(4 ε)).
 *
 * @source naca-1157
 */
function shortSlopes(x: number, y: number) {
  const range = Math.max(1e-6, Math.hypot(x, y));
  const e = Math.tanh(range / 2);
  const q = 1 - e * e;
  const half = q / 2;
  const force = half * (1 / e + (4 * e) / q + (e * (16 - Math.PI ** 2)) / (16 * e * e + Math.PI ** 2 * q));
  const tangent = (Math.PI * Math.sqrt(q)) / (4 * e);
  const turn = (half * -Math.PI) / (4 * e * e * Math.sqrt(q) * (1 + tangent * tangent));
  const [cos, sin] = [x / range, y / range];
  return { a: force * cos, b: force * sin, c: turn * cos + sin / range, d: turn * sin - cos / range };
}

/**
 * Finds where the journal carries a load: the force of the film meets it, with nothing left across.
 *
 * Newton's method by Broyden's update, on a place whose distance from the centre is ln((1+ε)/(1−ε)): forces that
 * grow without bound towards the wall are then tame. Where a step does not help it is halved, where its slopes have
 * grown stale they are taken anew.
 *
 * @param load    in μ ω R⁴/c²
 * @param supply  in μ ω R²/c²
 * @returns       undefined when no balance was found
 */
export function settledJournal(
  bearing: FedFilm,
  load: number,
  supply: number,
  start: JournalStart,
  closeness = 1e-4,
): SettledJournal | undefined {
  let solves = 0;
  let effect: FilmEffect | undefined;
  const out = [0, 0];
  /** Unbalanced force at a place, in the mean of load and film force. */
  const missAt = (x: number, y: number): boolean => {
    const range = Math.hypot(x, y);
    if (range > FARTHEST) return false;
    const e = Math.tanh(range / 2);
    const attitude = range > 0 ? Math.atan2(y, x) : 0;
    solves++;
    let solved = solvedAt(bearing, e, attitude, supply);
    if (!solved) {
      startAfresh(bearing);
      solved = solvedAt(bearing, e, attitude, supply);
      if (!solved) return false;
    }
    effect = solved.effect;
    // The narrowest gap lies at φ from the load: turn the force from the line of centres to the load.
    const [c, s] = [Math.cos(attitude), Math.sin(attitude)];
    const [fx, fy] = [-effect.along, effect.across];
    const along = fx * c + fy * s;
    const across = fy * c - fx * s;
    const scale = Math.sqrt(load * Math.max(Math.hypot(fx, fy), 1e-3 * load));
    out[0] = (along - load) / scale;
    out[1] = across / scale;
    return true;
  };

  const range = rangeOf(Math.min(0.995, Math.max(1e-3, start.eccentricity)));
  let x = range * Math.cos(start.attitude);
  let y = range * Math.sin(start.attitude);
  if (!missAt(x, y)) return undefined;
  let [r0, r1] = [out[0]!, out[1]!];
  let best = effect!;
  let { a, b, c, d } = shortSlopes(x, y);
  let fresh = false;
  const slopes = (): boolean => {
    const h = 1e-3 * Math.max(0.3, Math.hypot(x, y));
    const inward = Math.hypot(x, y) > 0.9 * FARTHEST ? -1 : 1;
    if (!missAt(x + inward * h, y)) return false;
    a = (out[0]! - r0) / (inward * h);
    c = (out[1]! - r1) / (inward * h);
    if (!missAt(x, y + inward * h)) return false;
    b = (out[0]! - r0) / (inward * h);
    d = (out[1]! - r1) / (inward * h);
    fresh = true;
    return true;
  };
  for (let tries = 0; tries < 80; tries++) {
    const size = Math.hypot(r0, r1);
    if (size < closeness) {
      const e = Math.tanh(Math.hypot(x, y) / 2);
      return { eccentricity: e, attitude: Math.atan2(y, x), effect: best, solves };
    }
    const det = a * d - b * c;
    let [dx, dy] = det === 0 ? [-r0, -r1] : [(b * r1 - d * r0) / det, (c * r0 - a * r1) / det];
    const long = Math.hypot(dx, dy);
    const most = 0.8;
    if (long > most) {
      dx *= most / long;
      dy *= most / long;
    }
    let taken = false;
    for (let share = 1; share > 0.02; share /= 3) {
      const [nx, ny] = [x + share * dx, y + share * dy];
      if (!missAt(nx, ny)) continue;
      const now = Math.hypot(out[0]!, out[1]!);
      const [d0, d1] = [out[0]! - r0, out[1]! - r1];
      const [sx, sy] = [nx - x, ny - y];
      if (now < size * (1 - 0.1 * share)) {
        // Broyden: the least change of the slopes that explains this step.
        const norm = sx * sx + sy * sy;
        const u0 = (d0 - a * sx - b * sy) / norm;
        const u1 = (d1 - c * sx - d * sy) / norm;
        a += u0 * sx;
        b += u0 * sy;
        c += u1 * sx;
        d += u1 * sy;
        x = nx;
        y = ny;
        r0 = out[0]!;
        r1 = out[1]!;
        best = effect!;
        fresh = false;
        taken = true;
        break;
      }
      if (!fresh) break;
    }
    if (!taken) {
      if (fresh) return undefined;
      if (!missAt(x, y) || !slopes()) return undefined;
    }
  }
  return undefined;
}

/** Factor by which load and supply pressure are led on to what was asked when the straight way failed. */
const LEAD = 2;

/**
 * Finds where the journal carries a load, from nothing but a guess: straight, and failing that by leading an easy
 * case, well loaded and hardly pressed, on to the one that was asked.
 */
export function settledAnyhow(
  bearing: FedFilm,
  load: number,
  supply: number,
  start: JournalStart,
  closeness = 1e-4,
): SettledJournal | undefined {
  const straight = settledJournal(bearing, load, supply, start, closeness);
  if (straight) return straight;
  let solves = 0;
  const easyLoad = shortLoad(bearing.shape, 0.7);
  const easySupply = Math.min(supply, 0.05);
  startAfresh(bearing);
  let last = settledJournal(bearing, easyLoad, easySupply, { eccentricity: 0.7, attitude: 0.7 }, 1e-3);
  if (!last) return undefined;
  let [at, ratio] = [0, LEAD];
  const way = Math.max(
    Math.abs(Math.log(load / easyLoad)),
    Math.log(supply / Math.max(easySupply, 1e-9)) || 0,
  );
  while (at < 1) {
    const next = Math.min(1, at + Math.log(ratio) / Math.max(way, 1e-9));
    const found = settledJournal(
      bearing,
      easyLoad * (load / easyLoad) ** next,
      easySupply * (supply / Math.max(easySupply, 1e-9)) ** next,
      last,
      next === 1 ? closeness : 1e-3,
    );
    if (found) {
      solves += found.solves;
      last = found;
      at = next;
      ratio = Math.min(LEAD, ratio * ratio);
    } else {
      ratio = Math.sqrt(ratio);
      if (ratio < 1.02) return undefined;
    }
  }
  return { ...last, solves };
}

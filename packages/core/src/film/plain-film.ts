import { emptyGrid, type FilmGrid, fillGrid, rowsOf } from './film-grid.ts';
import {
  EDGE,
  effectOf,
  emptyFilm,
  FED,
  type Film,
  fillConductances,
  INNER,
  solvedFilm,
} from './ruptured-film.ts';

const TURN = 2 * Math.PI;

/** Intervals round the bearing and over half its length. */
const ROUND = 64;
const HALF = 6;

/** ε for which the plain bearing is solved and found: the range over which the grid holds. */
export const PLAIN_ECCENTRICITY = { least: 1e-4, most: 0.99 } as const;

/**
 * The plain full bearing of the published design tables: the film begins with p = 0 at the widest gap, which is
 * flooded; it ruptures where p = ∂p/∂θ = 0; nothing presses at the edges.
 */
export interface PlainFilm {
  /** L/D; infinite is a bearing without edges, all figures then of a piece one diameter long. */
  readonly lengthOverDiameter: number;
  readonly grid: FilmGrid;
  readonly film: Film;
  readonly gammas: Float64Array;
}

/** Dimensionless figures of a plain bearing at one eccentricity. */
export interface PlainBearing {
  readonly eccentricity: number;
  /** S = (r/c)² μ N/P */
  readonly sommerfeld: number;
  /** φ, from the load line to the narrowest gap [rad] */
  readonly attitude: number;
  /** (r/c) f, friction over the whole circumference with full film also where it is ruptured */
  readonly friction: number;
  /** Q/(r c N L), through the inlet line */
  readonly flow: number;
  /** Qs/Q */
  readonly sideRatio: number;
  /** p_max over P */
  readonly peak: number;
  /** θ of the greatest pressure, and where the film ends in the middle plane, from the widest gap [rad] */
  readonly peakAt: number;
  readonly end: number;
}

export function plainFilm(lengthOverDiameter: number): PlainFilm {
  const long = !Number.isFinite(lengthOverDiameter);
  const rows = long
    ? { z: Float64Array.of(0), strip: Float64Array.of(1), weight: Float64Array.of(1) }
    : rowsOf([Array.from({ length: HALF + 1 }, (_, j) => lengthOverDiameter * (1 - (1 - j / HALF) ** 1.5))]);
  const grid = emptyGrid(ROUND, rows);
  const film = emptyFilm(grid, 'reynolds', true, !long);
  for (let i = 0; i < ROUND; i++)
    for (let j = 0; j < grid.rows; j++) {
      const at = i * grid.rows + j;
      film.kind[at] = i === 0 ? FED : !long && j === grid.rows - 1 ? EDGE : INNER;
      film.broken[at] = film.kind[at] === INNER && i > 0.6 * ROUND ? 1 : 0;
    }
  // A little closer at the inlet line, where the gap is wide and steps of γ are long.
  const gammas = Float64Array.from({ length: ROUND }, (_, i) => {
    const u = i / ROUND;
    return TURN * u - 0.4 * Math.sin(TURN * u);
  });
  return { lengthOverDiameter, grid, film, gammas };
}

/** Vertex of the parabola through three points, of which the middle one is the highest. */
function vertex(x: readonly number[], y: readonly number[]): readonly [number, number] {
  const [x0, x1, x2] = x as [number, number, number];
  const [y0, y1, y2] = y as [number, number, number];
  const left = (y1 - y0) / (x1 - x0);
  const right = (y2 - y1) / (x2 - x1);
  const bend = (right - left) / (x2 - x0);
  if (!(bend < 0)) return [x1, y1];
  const slope = left + bend * (x1 - x0);
  return [x1 - slope / (2 * bend), y1 - (slope * slope) / (4 * bend)];
}

/** Greatest pressure of a film and where it lies [rad]; in the middle plane, where symmetric films have it. */
export function greatestPressure(film: Film): { readonly at: number; readonly pressure: number } {
  const { grid, p } = film;
  const { slices, rows, theta } = grid;
  let most = 0;
  for (let at = 1; at < p.length; at++) if (p[at]! > p[most]!) most = at;
  const i = Math.floor(most / rows);
  const j = most % rows;
  const near = (k: number) => theta[((k % slices) + slices) % slices]! + TURN * Math.floor(k / slices);
  const value = (k: number) => p[(((k % slices) + slices) % slices) * rows + j]!;
  const ks = [i - 1, i, i + 1];
  const [at, pressure] = vertex(ks.map(near), ks.map(value));
  return { at: ((at % TURN) + TURN) % TURN, pressure };
}

/** Solves the plain bearing at an eccentricity ratio; undefined when no solution was reached. */
export function plainBearingAt(plain: PlainFilm, e: number): PlainBearing | undefined {
  const { film, grid, gammas } = plain;
  const { rows, strip } = grid;
  const long = !Number.isFinite(plain.lengthOverDiameter);
  const length = long ? 1 : plain.lengthOverDiameter;
  fillGrid(grid, e, gammas);
  fillConductances(film, 1);
  if (solvedFilm(film) < 0) return undefined;
  const effect = effectOf(film);
  const load = Math.hypot(effect.along, effect.across);
  let inlet = 0;
  for (let j = 0; j < rows; j++) inlet += strip[j]! * grid.drag[0]! - film.along[j]! * film.p[rows + j]!;
  // What leaves by the edge between the inlet line and the face of its slice, where p has risen to half of the next.
  const early = long
    ? 0
    : ((grid.across[0]! / 2) * (film.p[2 * rows - 2]! / 4)) / (grid.z[rows - 1]! - grid.z[rows - 2]!);
  const flow = 2 * (inlet + early);
  const { at, pressure } = greatestPressure(film);
  let end = TURN;
  for (let i = grid.slices - 1; i > 0 && film.broken[i * rows]; i--) end = grid.theta[i]!;
  return {
    eccentricity: e,
    sommerfeld: (2 * length) / (Math.PI * load),
    attitude: Math.atan2(effect.across, -effect.along),
    friction: ((TURN / Math.sqrt(1 - e * e)) * 2 * length + (e / 2) * effect.across) / load,
    // c U R is 2π N R² c, and L is 2 R length.
    flow: (flow * Math.PI) / length,
    sideRatio: (effect.side + 2 * early) / flow,
    peak: (pressure * 4 * length) / load,
    peakAt: at,
    end,
  };
}

/** Solves the plain bearing for a Sommerfeld number; undefined when it lies outside the range of ε. */
export function plainBearingFor(plain: PlainFilm, sommerfeld: number): PlainBearing | undefined {
  const { least, most } = PLAIN_ECCENTRICITY;
  const rangeOf = (e: number) => Math.log(e / (1 - e));
  const ratioOf = (x: number) => 1 / (1 + Math.exp(-x));
  const missAt = (x: number): readonly [number, PlainBearing] | undefined => {
    const found = plainBearingAt(plain, ratioOf(x));
    return found && [Math.log(found.sommerfeld / sommerfeld), found];
  };
  // S falls as ε grows. A bracket by steps from the middle, then regula falsi with halved weights (Illinois).
  let x0 = rangeOf(0.6);
  let at0 = missAt(x0);
  if (!at0) return undefined;
  let [f0] = at0;
  const step = f0 > 0 ? 0.9 : -0.9;
  let x1 = x0;
  let f1 = f0;
  let best = at0[1];
  while (f1 > 0 === f0 > 0) {
    [x0, f0] = [x1, f1];
    const next = x1 + step * Math.max(1, Math.abs(f1));
    x1 = Math.min(rangeOf(most), Math.max(rangeOf(least), next));
    if (x1 === x0) return undefined;
    const found = missAt(x1);
    if (!found) return undefined;
    [f1, best] = found;
  }
  for (let k = 0; k < 60; k++) {
    if (Math.abs(f1) < 1e-9) return best;
    const x = x1 - (f1 * (x1 - x0)) / (f1 - f0);
    at0 = missAt(x);
    if (!at0) return undefined;
    const [f] = at0;
    if (f > 0 !== f1 > 0) [x0, f0] = [x1, f1];
    else f0 /= 2;
    [x1, f1, best] = [x, f, at0[1]];
    if (Math.abs(x1 - x0) < 1e-13) return best;
  }
  return best;
}

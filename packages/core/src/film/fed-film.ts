import { exactHoleConductance } from '../oil/bearing-feed.ts';
import { emptyGrid, type FilmGrid, fillGrid, rowsOf, slicesBetween } from './film-grid.ts';
import {
  EDGE,
  effectOf,
  emptyFilm,
  FED,
  type Film,
  type FilmEffect,
  fillConductances,
  INNER,
  type Rupture,
  solvedFilm,
} from './ruptured-film.ts';
import { type BearingShape, type Pad, padsOf } from './supply.ts';

const TURN = 2 * Math.PI;

/** How fine the grid is: intervals round the bearing and over half its length (or one land). */
export interface Fineness {
  readonly round: number;
  readonly half: number;
}

export const FINE: Fineness = { round: 64, half: 6 };

/** How much the slices crowd at the ends of a run between features. */
const CROWD = 0.8;

/** A fed bearing laid out for solving, again and again: its grid's pattern, its film, and the room for both. */
export interface FedFilm {
  readonly shape: BearingShape;
  readonly pads: readonly Pad[];
  /** Angles from the pads' own zero at which runs of slices begin, and the intervals of each run. */
  readonly marks: readonly number[];
  readonly counts: readonly number[];
  readonly gammas: Float64Array;
  readonly turned: number[];
  readonly grid: FilmGrid;
  readonly film: Film;
  /** Factor on the conductance out of a round hole, so that its steps do not change what flows out of it. */
  hole: number;
  /** Pressure of the supply, in μ ω R²/c². */
  supply: number;
}

const evenly = (from: number, to: number, n: number, pull: (u: number) => number): number[] =>
  Array.from({ length: n + 1 }, (_, i) => from + (to - from) * pull(i / n));

/** Rows of points, crowded where pressure falls off most. */
function runsAlong(shape: BearingShape, pads: readonly Pad[], n: number): number[][] {
  const edge = shape.lengthOverDiameter;
  const bothEnds = (u: number) => u - (0.4 * Math.sin(TURN * u)) / TURN;
  const { supply } = shape;
  if (supply.kind === 'full-groove') return [evenly(supply.width * edge, edge, n, bothEnds)];
  const [pad] = pads;
  if (!pad) return [evenly(0, edge, n, (u) => 1 - (1 - u) ** 1.5)];
  if (pad.round) {
    // A step away from a hole should be as long as the way already gone: pressure falls with the logarithm.
    const growth = (edge / pad.reach) ** 0.5;
    const outside = (u: number) => (growth ** u - 1) / (growth - 1);
    return [[0, pad.reach * Math.SQRT1_2, pad.reach], evenly(pad.reach, edge, Math.max(3, n - 2), outside)];
  }
  const inside = Math.min(n - 3, Math.max(2, Math.round((n * pad.reach) / edge)));
  return [
    evenly(0, pad.reach, inside, (u) => 1 - (1 - u) ** 1.5),
    evenly(pad.reach, edge, n - inside, bothEnds),
  ];
}

/** Runs of slices: over each pad, and from pad to pad. */
function runsRound(pads: readonly Pad[], n: number): { marks: number[]; counts: number[] } {
  if (pads.length === 0) return { marks: [0], counts: [n] };
  const marks: number[] = [];
  const counts: number[] = [];
  pads.forEach(({ at, halfArc, round }, k) => {
    const next = k + 1 < pads.length ? pads[k + 1]! : { ...pads[0]!, at: pads[0]!.at + TURN };
    if (round) {
      for (const share of [-1, -Math.SQRT1_2, 0, Math.SQRT1_2]) {
        marks.push(at + share * halfArc);
        counts.push(1);
      }
    } else {
      marks.push(at - halfArc);
      counts.push(Math.max(3, Math.round((n * 2 * halfArc) / TURN)));
    }
    marks.push(at + halfArc);
    counts.push(Math.max(6, Math.round((n * (next.at - next.halfArc - at - halfArc)) / TURN)));
  });
  return { marks, counts };
}

/**
 * Lays a bearing out. `reynolds` leaves the conservation of mass away, to show what that would miss.
 */
export function fedFilm(
  shape: BearingShape,
  fineness: Fineness = FINE,
  rupture: Rupture = 'conserving',
): FedFilm {
  const pads = padsOf(shape);
  const { marks, counts } = runsRound(pads, fineness.round);
  const slices = counts.reduce((sum, n) => sum + n, 0);
  const grid = emptyGrid(slices, rowsOf(runsAlong(shape, pads, fineness.half)));
  const film = emptyFilm(grid, rupture);
  const { rows, z } = grid;
  // The slices of the pads never change: they turn with them. So neither does what is fed.
  const inPad = new Float64Array(slices).fill(-1);
  let i = 0;
  marks.forEach((mark, m) => {
    const span = (marks[m + 1] ?? marks[0]! + TURN) - mark;
    for (let k = 0; k < counts[m]!; k++, i++) {
      const angle = mark + (span * k) / counts[m]!;
      for (const { at, halfArc, reach, round } of pads) {
        const off = Math.abs(angle - at);
        if (off <= halfArc * (1 + 1e-9))
          inPad[i] = round ? Math.sqrt(Math.max(0, reach * reach - off * off)) : reach;
      }
    }
  });
  for (let s = 0; s < slices; s++)
    for (let j = 0; j < rows; j++) {
      const fed =
        shape.supply.kind === 'full-groove'
          ? j === 0
          : inPad[s]! >= 0 && z[j]! <= inPad[s]! + 1e-9 * z[rows - 1]!;
      film.kind[s * rows + j] = fed ? FED : j === rows - 1 ? EDGE : INNER;
    }
  if (pads.length > 0) markGrooves(film);
  const bearing: FedFilm = {
    shape,
    pads,
    marks,
    counts,
    gammas: new Float64Array(slices),
    turned: [...marks],
    grid,
    film,
    hole: 1,
    supply: 0,
  };
  if (shape.supply.kind === 'hole') bearing.hole = roundness(bearing, shape.supply.diameter);
  startAfresh(bearing);
  return bearing;
}

/** Between four fed points there is groove, not film: each takes its quarter of that. */
function markGrooves({ grid, kind, bare }: Film): void {
  const { slices, rows } = grid;
  for (let i = 0; i < slices; i++) {
    const next = (i + 1 < slices ? i + 1 : 0) * rows;
    for (let j = 0; j + 1 < rows; j++) {
      const corners = [i * rows + j, i * rows + j + 1, next + j, next + j + 1];
      if (!corners.every((at) => kind[at] === FED)) continue;
      // In the middle plane only the quarters on this side are counted, so each weighs double there.
      corners.forEach((at, k) => {
        bare[at]! -= j === 0 && k % 2 === 0 ? 0.5 : 0.25;
      });
    }
  }
}

/**
 * The grid draws a hole as an octagon, in steps. This is the factor on the conductance out of it with which a
 * concentric film lets through what potential theory says of a round hole in a strip:
 *
 *     12 μ Q/(h³ p) = 2 π/ln(4 L/(π d))
 *
 * @source hole-in-strip
 */
function roundness(bearing: FedFilm, share: number): number {
  const exact = exactHoleConductance(share) / 12;
  const resistance = (factor: number): number => {
    bearing.hole = factor;
    const solved = solvedAt(bearing, 0, 0, 1);
    return solved ? 1 / solved.effect.feed : Number.NaN;
  };
  // A part of the resistance lies in the conductances multiplied, as r0 + r1/factor; the slope is taken anew once.
  let [at, was] = [1, resistance(1)];
  let next = 1.25;
  for (let k = 0; k < 2; k++) {
    const now = resistance(next);
    const part = (now - was) / (1 / next - 1 / at);
    [at, was] = [next, now];
    const inverse = 1 / at + (1 / exact - was) / part;
    next = inverse > 0.4 && inverse < 2.5 ? 1 / inverse : 1;
  }
  return next;
}

/** Forgets where the film was ruptured last: full from the widest gap to a little past the narrowest. */
export function startAfresh({ film, grid }: FedFilm): void {
  film.broken.fill(0);
  for (let i = 0; i < grid.slices; i++)
    for (let j = 0; j < grid.rows; j++)
      film.broken[i * grid.rows + j] =
        grid.theta[i]! > 1.15 * Math.PI && film.kind[i * grid.rows + j] !== FED ? 1 : 0;
}

/** Lays the grid for a journal position; false when it is none. */
function placed(bearing: FedFilm, e: number, attitude: number): boolean {
  if (!(e >= 0 && e < 1 && Number.isFinite(attitude))) return false;
  const { shape, marks, counts, gammas, turned, grid, film } = bearing;
  const { supply } = shape;
  const fixed = supply.kind === 'full-groove';
  // The load lies at θ = π − φ.
  const shift = fixed ? 0 : Math.PI - attitude;
  for (let m = 0; m < marks.length; m++) turned[m] = marks[m]! + shift;
  slicesBetween(e, turned, counts, bearing.pads.length > 0 ? CROWD : 0, gammas);
  fillGrid(grid, e, gammas);
  fillConductances(film, bearing.hole);
  return true;
}

/** Solves the film at a journal position and a supply pressure; undefined when no solution was reached. */
export function solvedAt(
  bearing: FedFilm,
  e: number,
  attitude: number,
  supply: number,
): { readonly effect: FilmEffect; readonly steps: number } | undefined {
  if (!placed(bearing, e, attitude)) return undefined;
  const { film } = bearing;
  bearing.supply = supply;
  for (let at = 0; at < film.kind.length; at++) if (film.kind[at] === FED) film.p[at] = supply;
  const steps = solvedFilm(film);
  return steps < 0 ? undefined : { effect: effectOf(film), steps };
}

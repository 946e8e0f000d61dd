import { solvedBand } from './band.ts';
import type { FilmGrid } from './film-grid.ts';

/** What holds at a point of the grid. */
export const INNER = 0;
export const EDGE = 1;
/** Pressure given: a groove, a hole, or the inlet line of the design tables. */
export const FED = 2;

/**
 * How the film gives way. `conserving`: a ruptured film carries on in streamers what flowed in, and closes again
 * where they fill the gap (Jakobsson, Floberg and Olsson). `reynolds`: p = ∂p/∂θ = 0 where it ruptures, as the
 * published design tables have it, and the film forms again from nothing.
 */
export type Rupture = 'conserving' | 'reynolds';

/** A film on its grid: what is known of it, and room for what is sought. Points go slice by slice. */
export interface Film {
  readonly grid: FilmGrid;
  readonly rupture: Rupture;
  readonly kind: Uint8Array;
  /** Pressure; given where fed. */
  readonly p: Float64Array;
  /** Share of what belongs to the point that is film and not groove: under 1 only at fed points. */
  readonly bare: Float64Array;
  /** Share of the gap that is empty: 0 in a full film. */
  readonly lack: Float64Array;
  /** Flow out of an edge point, or (Reynolds) what an inner point is given out of nothing, negative. */
  readonly spill: Float64Array;
  /** 1 where the film is ruptured. Kept from solve to solve as a start. */
  readonly broken: Uint8Array;
  /** Conductance from a point to the same row of the next slice, and to the next row. */
  readonly along: Float64Array;
  readonly across: Float64Array;
  readonly band: Float64Array;
  readonly right: Float64Array;
  /** Rows that are solved for: all but the edge, whose points only take what comes to them. */
  readonly depth: number;
  /** By slice: its first row in the band. */
  readonly place: Int32Array;
  /** Half the width of the band. */
  readonly reach: number;
}

/**
 * @param cut    whether the first slice is fed all along, so that the ring may be cut open there
 * @param edged  whether the last row lies on the edge; a bearing without edges has none
 */
export function emptyFilm(grid: FilmGrid, rupture: Rupture, cut = false, edged = true): Film {
  const size = grid.slices * grid.rows;
  const depth = edged ? grid.rows - 1 : grid.rows;
  const solved = grid.slices * depth;
  const room = () => new Float64Array(size);
  const place = new Int32Array(grid.slices);
  // In a ring slices are taken from both sides in turn: the last is next to the first, and the band stays narrow.
  for (let i = 0; i < grid.slices; i++)
    place[i] = depth * (cut ? i : 2 * i < grid.slices ? 2 * i : 2 * (grid.slices - i) - 1);
  const reach = cut ? depth : 2 * depth;
  return {
    grid,
    rupture,
    kind: new Uint8Array(size),
    p: room(),
    bare: room().fill(1),
    lack: room(),
    spill: room(),
    broken: new Uint8Array(size),
    along: room(),
    across: room(),
    band: new Float64Array(solved * (2 * reach + 1)),
    right: new Float64Array(solved),
    depth,
    place,
    reach,
  };
}

/** Takes the conductances of the grid over; `hole` multiplies those out of a fed point. */
export function fillConductances(film: Film, hole: number): void {
  const { grid, kind, along, across } = film;
  const { slices, rows, z, strip } = grid;
  for (let i = 0; i < slices; i++) {
    const next = (i + 1 < slices ? i + 1 : 0) * rows;
    for (let j = 0; j < rows; j++) {
      const at = i * rows + j;
      const sideways = (kind[at] === FED) !== (kind[next + j] === FED) ? hole : 1;
      along[at] = grid.along[i]! * strip[j]! * sideways;
      if (j + 1 < rows) {
        const out = (kind[at] === FED) !== (kind[at + 1] === FED) ? hole : 1;
        across[at] = (grid.across[i]! / (z[j + 1]! - z[j]!)) * out;
      }
    }
  }
}

/** One step: the pressures and shortages that balance every point, for the present guess of where the film is broken. */
function balancedPoints(film: Film): boolean {
  const { grid, kind, p, lack, spill, broken, along, across, band, right, place, reach, depth } = film;
  const { slices, rows, strip, drag } = grid;
  const width = 2 * reach + 1;
  const conserving = film.rupture === 'conserving';
  band.fill(0);
  right.fill(0);
  for (let i = 0; i < slices; i++) {
    const before = i > 0 ? i - 1 : slices - 1;
    const after = i + 1 < slices ? i + 1 : 0;
    const here = place[i]!;
    const toBefore = place[before]! - here;
    const toAfter = place[after]! - here;
    for (let j = 0; j < depth; j++) {
      const at = i * rows + j;
      const row = here + j;
      const mid = row * width + reach;
      if (kind[at] === FED) {
        // Known: its row only says so, and what it gives its neighbours goes to the right side.
        band[mid] = 1;
        const known = p[at]!;
        if (known !== 0) {
          const [west, east] = [before * rows + j, after * rows + j];
          if (kind[west] === INNER) right[row + toBefore]! += along[west]! * known;
          if (kind[east] === INNER) right[row + toAfter]! += along[at]! * known;
          if (j > 0 && kind[at - 1] !== FED) right[row - 1]! += across[at - 1]! * known;
          if (j + 1 < depth && kind[at + 1] !== FED) right[row + 1]! += across[at]! * known;
        }
        continue;
      }
      right[row]! -= strip[j]! * (drag[i]! - drag[before]!);
      if (broken[at]) {
        if (!conserving) {
          band[mid] = 1;
          continue;
        }
        // What is missing here is missing downstream. The trace lost on the way settles a ring that nothing feeds.
        const carried = strip[j]! * drag[i]!;
        band[mid] = carried * (1 + 1e-9);
        const down = after * rows + j;
        if (kind[down] !== FED) band[(row + toAfter) * width + reach - toAfter]! -= carried;
        continue;
      }
      const west = before * rows + j;
      const east = after * rows + j;
      const [cw, ce] = [along[west]!, along[at]!];
      const inward = j > 0 ? across[at - 1]! : 0;
      const outward = across[at]!;
      band[mid]! += cw + ce + inward + outward;
      if (kind[west] !== FED) band[(row + toBefore) * width + reach - toBefore]! -= cw;
      if (kind[east] !== FED) band[(row + toAfter) * width + reach - toAfter]! -= ce;
      if (j > 0 && kind[at - 1] !== FED) band[(row - 1) * width + reach + 1]! -= inward;
      if (j + 1 < depth && kind[at + 1] !== FED) band[(row + 1) * width + reach - 1]! -= outward;
    }
  }
  if (!solvedBand(band, slices * depth, reach, right)) return false;
  for (let i = 0; i < slices; i++)
    for (let j = 0; j < depth; j++) {
      const at = i * rows + j;
      if (kind[at] === FED) continue;
      const x = right[place[i]! + j]!;
      p[at] = broken[at] ? 0 : x;
      lack[at] = broken[at] && conserving ? -x : 0;
      spill[at] = broken[at] && !conserving ? x : 0;
    }
  return true;
}

/**
 * Goes along the edge with the flow: an edge point drags on what comes to it as far as its gap holds that, and spills
 * the rest. Twice round, since where one begins is not yet known to be full.
 */
function settleEdge({ grid, kind, p, lack, spill, across, depth, rupture }: Film): void {
  const { slices, rows, strip, drag } = grid;
  if (depth === rows) return;
  const j = rows - 1;
  const width = strip[j]!;
  let carried = width * drag[slices - 1]!;
  for (let k = 0; k < 2 * slices; k++) {
    const i = k % slices;
    const at = i * rows + j;
    const most = width * drag[i]!;
    if (kind[at] === FED) {
      carried = most;
      continue;
    }
    const come = carried + across[at - 1]! * p[at - 1]!;
    carried = rupture === 'reynolds' ? most : Math.min(most, come);
    spill[at] = come - carried;
    lack[at] = 1 - carried / most;
  }
}

/** How often the number of wrong guesses may fail to fall before they are put right one at a time. */
const PATIENCE = 12;

/**
 * Solves the film: pressure or shortage at every point, never both, neither negative.
 *
 * That is a linear complementarity problem whose matrices are M-matrices by columns, so it has one solution.
 * All wrong guesses are put right at once; when their number stops falling, only the last one is, which is known to
 * end for such matrices (block principal pivoting with the single step as its way out).
 *
 * @returns steps taken, or a negative number when no solution was reached
 * @source  judice-pires for the steps, elrod-adams and jakobsson-floberg for the film
 */
export function solvedFilm(film: Film, most = 600): number {
  const { kind, p, lack, spill, broken } = film;
  const size = kind.length;
  const conserving = film.rupture === 'conserving';
  let fewest = size + 1;
  let patience = PATIENCE;
  for (let step = 1; step <= most; step++) {
    if (!balancedPoints(film)) return -step;
    let wrong = 0;
    let last = -1;
    let scale = 0;
    for (let at = 0; at < size; at++) if (p[at]! > scale) scale = p[at]!;
    const slack = 1e-12 * (scale + 1e-3);
    for (let at = 0; at < size; at++) {
      if (kind[at] === INNER && isWrong(at)) {
        wrong++;
        last = at;
      }
    }
    if (wrong === 0) {
      settleEdge(film);
      return step;
    }
    const single = wrong >= fewest && patience <= 0;
    if (wrong < fewest) {
      fewest = wrong;
      patience = PATIENCE;
    } else patience--;
    if (single) broken[last] = broken[last] ? 0 : 1;
    else
      for (let at = 0; at < size; at++)
        if (kind[at] === INNER && isWrong(at)) broken[at] = broken[at] ? 0 : 1;

    function isWrong(at: number): boolean {
      if (!broken[at]) return p[at]! < -slack;
      return conserving ? lack[at]! < -1e-12 : spill[at]! > 1e-14;
    }
  }
  return -most;
}

/** What a solved film does to journal and oil; forces in μ ω R⁴/c², flows in c U R, both halves together. */
export interface FilmEffect {
  /** Force of the film on the journal from the widest gap to the narrowest negative: along θ = 0, and along θ = 90°. */
  readonly along: number;
  readonly across: number;
  /** Out of the edges. */
  readonly side: number;
  /** Out of groove or hole, or through the inlet line. */
  readonly feed: number;
  /** ∮∮ of fill/h + (h/2) ∂p/∂θ over the film, in μ ω R³/c: friction of the journal, times 1/R. */
  readonly friction: number;
  /** Share of the flow that goes in and does not come out: what is left of the balance. */
  readonly imbalance: number;
}

/** Net flow out of a fed point into the film. */
function fedFlow(film: Film, i: number, j: number): number {
  const { grid, kind, p, lack, along, across } = film;
  const { slices, rows, strip, drag } = grid;
  const at = i * rows + j;
  const before = i > 0 ? i - 1 : slices - 1;
  const west = before * rows + j;
  const east = (i + 1 < slices ? i + 1 : 0) * rows + j;
  let flow = strip[j]! * (drag[i]! - (1 - lack[west]!) * drag[before]!);
  flow += along[at]! * (p[at]! - p[east]!) + along[west]! * (p[at]! - p[west]!);
  if (j > 0) flow += across[at - 1]! * (p[at]! - p[at - 1]!);
  if (j + 1 < rows) flow += across[at]! * (p[at]! - p[at + 1]!);
  return kind[at] === FED ? flow : 0;
}

export function effectOf(film: Film): FilmEffect {
  const { grid, kind, p, lack, spill } = film;
  const { slices, rows, weight, strip } = grid;
  let [fx, fy, side, feed, friction] = [0, 0, 0, 0, 0];
  for (let i = 0; i < slices; i++) {
    const next = (i + 1 < slices ? i + 1 : 0) * rows;
    let line = 0;
    for (let j = 0; j < rows; j++) {
      const at = i * rows + j;
      line += p[at]! * weight[j]!;
      const edge = j === rows - 1;
      if (edge) side += Math.max(0, kind[at] === FED ? 0 : spill[at]!);
      if (kind[at] === FED) feed += fedFlow(film, i, j);
      friction += (1 - lack[at]!) * grid.shear[i]! * strip[j]! * film.bare[at]!;
      if (kind[at] !== FED || kind[next + j] !== FED)
        friction += grid.drag[i]! * (p[next + j]! - p[at]!) * weight[j]!;
    }
    fx += line * grid.cosines[i]!;
    fy += line * grid.sines[i]!;
  }
  const through = Math.max(Math.abs(feed), side, 1e-12);
  return {
    along: 2 * fx,
    across: 2 * fy,
    side: 2 * side,
    feed: 2 * feed,
    friction: 2 * friction,
    imbalance: (feed - side) / through,
  };
}

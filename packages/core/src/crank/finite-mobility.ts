import { emptyGrid, type FilmGrid, fillGrid, rowsOf } from '../film/film-grid.ts';
import { gapAngle } from '../film/gap.ts';
import { monotoneValue } from '../film/monotone-curve.ts';
import {
  EDGE,
  effectOf,
  emptyFilm,
  type Film,
  fillConductances,
  INNER,
  solvedFilm,
} from '../film/ruptured-film.ts';
import { type SqueezeVelocity, squeezeVelocity } from './mobility.ts';

/** Intervals round the bearing and over half its length. */
const ROUND = 48;
const HALF = 5;

/** Steps of −ln(1 − ε), and how many; ε to 0.9945. */
const STEP = 0.4;
const STEPS = 13;
/** Intervals of the load's direction over half a turn. */
const DIRECTIONS = 8;
const NEAREST_CENTRE = 1e-3;
const APART = 1e-3;
const KEPT = 64;

/**
 * Mobility of a bearing of finite length: that of the short bearing, times what the film solved over the length makes
 * of it, as a share of size and an angle, tabled over eccentricity and direction of the load.
 *
 *     ∂/∂θ (h³/12 ∂p/∂θ) + ∂/∂z (h³/12 ∂p/∂z) = −v cos(ψ − χ) where p > 0;  p ≥ 0 everywhere, 0 at the edges
 *
 * The share goes to 1 as the bearing gets short, so that the closed formula stays its limit.
 *
 * @source mobility-method for the method; jakobsson-floberg for the film’s equation, Reynolds’ rupture
 */
export class FiniteMobility {
  private readonly size = new Float64Array((STEPS + 1) * (DIRECTIONS + 1));
  private readonly turn = new Float64Array((STEPS + 1) * (DIRECTIONS + 1));

  /** @throws RangeError  when a film finds no solution; no length from 0.05 to 5 diameters is known to do so */
  constructor(lengthOverDiameter: number) {
    const squeezed = new SqueezedFilm(lengthOverDiameter);
    const out = { x: 0, y: 0 };
    for (let row = 0; row <= STEPS; row++) {
      const e = Math.max(NEAREST_CENTRE, 1 - Math.exp(-STEP * row));
      const angles: number[] = [];
      const sizes: number[] = [];
      const turns: number[] = [];
      squeezed.put(e);
      for (let k = 0; k <= DIRECTIONS; k++) {
        const wanted = (Math.PI * k) / DIRECTIONS;
        squeezeVelocity(e, 0, Math.cos(wanted), Math.sin(wanted), out);
        const towards = k === 0 ? 0 : k === DIRECTIONS ? Math.PI : Math.atan2(out.y, out.x);
        const [fr, ft] = squeezed.force(towards);
        const angle = k === 0 ? 0 : k === DIRECTIONS ? Math.PI : Math.atan2(ft, fr);
        squeezeVelocity(e, 0, Math.cos(angle), Math.sin(angle), out);
        angles.push(angle);
        sizes.push(-Math.log(Math.hypot(fr, ft) * Math.hypot(out.x, out.y)));
        turns.push(k === 0 || k === DIRECTIONS ? 0 : towards - Math.atan2(out.y, out.x));
      }
      for (let k = 0; k <= DIRECTIONS; k++) {
        const at = (Math.PI * k) / DIRECTIONS;
        this.size[row * (DIRECTIONS + 1) + k] = monotoneValue(angles, (i) => sizes[i]!, at);
        this.turn[row * (DIRECTIONS + 1) + k] = monotoneValue(angles, (i) => turns[i]!, at);
      }
    }
  }

  /** As `squeezeVelocity`, of the short bearing. */
  velocity(ex: number, ey: number, fx: number, fy: number, out: SqueezeVelocity): void {
    squeezeVelocity(ex, ey, fx, fy, out);
    const e = Math.sqrt(ex * ex + ey * ey);
    const across = ex * fy - ey * fx;
    const angle = e > 0 ? Math.atan2(Math.abs(across), ex * fx + ey * fy) : 0;
    const x = -Math.log(1 - Math.min(e, 1 - 1e-9)) / STEP;
    // Beyond the last row both go straight on.
    const row = Math.min(STEPS - 1, Math.floor(x));
    const t = x - row;
    const u = Math.min(DIRECTIONS, (angle * DIRECTIONS) / Math.PI);
    const size = Math.exp(this.between(this.size, row, t, u, 1));
    const turn = this.between(this.turn, row, Math.min(t, 1), u, -1) * (across < 0 ? -1 : 1);
    const cos = size * Math.cos(turn);
    const sin = size * Math.sin(turn);
    const vx = out.x;
    out.x = cos * vx - sin * out.y;
    out.y = sin * vx + cos * out.y;
  }

  /** Cubic between the four nearest rows and directions; `mirror` is the figure's sign on the other side of the line of centres. */
  private between(figures: Float64Array, row: number, t: number, u: number, mirror: number): number {
    const k = Math.min(DIRECTIONS - 1, Math.floor(u));
    const s = u - k;
    const line = (r: number): number => {
      const base = r * (DIRECTIONS + 1);
      const a = k > 0 ? figures[base + k - 1]! : mirror * figures[base + 1]!;
      const d = k + 2 <= DIRECTIONS ? figures[base + k + 2]! : mirror * figures[base + DIRECTIONS - 1]!;
      return cubic(a, figures[base + k]!, figures[base + k + 1]!, d, s);
    };
    const b = line(row);
    const c = line(row + 1);
    const a = row > 0 ? line(row - 1) : 2 * b - c;
    if (t > 1) return c + (t - 1) * (c - b);
    const d = row + 2 <= STEPS ? line(row + 2) : 2 * c - b;
    return cubic(a, b, c, d, t);
  }
}

/** Catmull and Rom's cubic between b and c. */
const cubic = (a: number, b: number, c: number, d: number, t: number): number =>
  b + (t / 2) * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));

/** The film of a journal that moves without turning, all round: for one eccentricity after the other. */
class SqueezedFilm {
  private readonly grid: FilmGrid;
  private readonly film: Film;
  private readonly length: number;
  private readonly faces = new Float64Array(ROUND);
  private readonly gammas = Float64Array.from({ length: ROUND }, (_, i) => (2 * Math.PI * i) / ROUND);

  constructor(lengthOverDiameter: number) {
    this.length = lengthOverDiameter;
    const rows = rowsOf([
      Array.from({ length: HALF + 1 }, (_, j) => lengthOverDiameter * (1 - (1 - j / HALF) ** 1.5)),
    ]);
    this.grid = emptyGrid(ROUND, rows);
    this.film = emptyFilm(this.grid, 'reynolds');
    for (let i = 0; i < ROUND; i++)
      for (let j = 0; j < this.grid.rows; j++)
        this.film.kind[i * this.grid.rows + j] = j === this.grid.rows - 1 ? EDGE : INNER;
  }

  put(e: number): void {
    fillGrid(this.grid, e, this.gammas);
    fillConductances(this.film, 1);
    for (let i = 0; i < ROUND; i++) this.faces[i] = gapAngle(e, (2 * Math.PI * (i + 0.5)) / ROUND);
  }

  /** Load that moves it with unit velocity towards χ from the line of centres: along that line and across, in μ L³ R/c². */
  force(towards: number): [number, number] {
    const { grid, film, faces } = this;
    const { rows } = grid;
    // θ begins at the widest gap, ψ at the narrowest.
    for (let i = 0; i < ROUND; i++) {
      grid.drag[i] = Math.sin(faces[i]! - towards);
      const closing = Math.cos(grid.theta[i]! - Math.PI - towards) > 0;
      for (let j = 0; j + 1 < rows; j++) film.broken[i * rows + j] = closing ? 0 : 1;
    }
    if (solvedFilm(film) < 0) throw new RangeError(`No squeezed film of ${this.length} diameters was found.`);
    const { along, across } = effectOf(film);
    const unit = 8 * this.length ** 3;
    return [-along / unit, -across / unit];
  }
}

const tables = new Map<number, FiniteMobility>();

/** The mobility of a length in diameters, solved once and kept: a few hundredths of a second the first time. */
export function finiteMobility(lengthOverDiameter: number): FiniteMobility {
  const key = Math.round(Math.log(lengthOverDiameter) / APART);
  const known = tables.get(key);
  if (known) return known;
  const table = new FiniteMobility(Math.exp(key * APART));
  if (tables.size >= KEPT) tables.delete(tables.keys().next().value!);
  tables.set(key, table);
  return table;
}

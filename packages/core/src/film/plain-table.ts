import { monotoneSlopes, onCurve } from './monotone-curve.ts';
import { plainBearingAt, plainFilm } from './plain-film.ts';

/** Figures of a plain bearing at one eccentricity, without dimensions. */
export interface PlainFigures {
  readonly eccentricity: number;
  /** Heat of friction over that of Petroff's concentric film, 2 π μ R³ L ω²/c. */
  readonly drag: number;
  /** What leaves at both edges, in R c ω L. */
  readonly side: number;
  /** Whether the film was solved so far out; otherwise the figures go on as they went at the end of the table. */
  readonly within: boolean;
}

/** Closer where the film changes fast. */
const ECCENTRICITIES = [
  0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.78, 0.85, 0.9, 0.94, 0.965, 0.985,
] as const;
/** Eccentricity to which films were solved; beyond, figures go on as they went. */
export const FARTHEST_SOLVED = ECCENTRICITIES[ECCENTRICITIES.length - 1]!;
/** Lengths in diameters that share a table lie within this share of each other. */
const APART = 1e-3;
const KEPT = 64;
const TURN = 2 * Math.PI;

/** ε/(1 − ε), by its logarithm: straight in ln S at both ends. */
const rangeOf = (e: number): number => Math.log(e / (1 - e));
const ratioOf = (range: number): number => 1 / (1 + Math.exp(-range));

/**
 * The steady plain bearing of one length, its film solved at a row of eccentricities: Reynolds' rupture, the inlet
 * at the widest gap, nothing pressing at the edges. What the published design tables hold.
 */
export class PlainTable {
  private readonly range: Float64Array;
  private readonly logLoad: Float64Array;
  private readonly loadSlopes: Float64Array;
  private readonly rangeSlopes: Float64Array;
  private readonly drag: Float64Array;
  private readonly dragSlopes: Float64Array;
  private readonly side: Float64Array;
  private readonly sideSlopes: Float64Array;
  private readonly out = { flow: 0, slope: 0 };

  /** @throws RangeError  when a film finds no solution; no length from 0.05 to 10 diameters is known to do so */
  constructor(lengthOverDiameter: number) {
    const plain = plainFilm(lengthOverDiameter);
    const rows = ECCENTRICITIES.map((e) => {
      const found = plainBearingAt(plain, e);
      if (!found) throw new RangeError(`No film of ${lengthOverDiameter} diameters was found at ε ${e}.`);
      return found;
    });
    const n = rows.length;
    this.range = Float64Array.from(rows, ({ eccentricity }) => rangeOf(eccentricity));
    this.logLoad = Float64Array.from(rows, ({ sommerfeld }) => -Math.log(sommerfeld));
    // (r/c) f over S is the drag by itself, 2 π² of it when concentric.
    this.drag = Float64Array.from(rows, ({ friction, sommerfeld }) =>
      Math.log(friction / sommerfeld / (2 * Math.PI ** 2)),
    );
    this.side = Float64Array.from(
      rows,
      ({ flow, sideRatio, eccentricity }) => (flow * sideRatio) / TURN / eccentricity,
    );
    const slopes = (x: Float64Array, y: Float64Array): Float64Array => {
      const into = new Float64Array(n);
      monotoneSlopes(x, y, into);
      return into;
    };
    this.loadSlopes = slopes(this.range, this.logLoad);
    this.rangeSlopes = slopes(this.logLoad, this.range);
    this.dragSlopes = slopes(this.range, this.drag);
    this.sideSlopes = slopes(this.range, this.side);
  }

  /** @param e  ε, from 0 to under 1 */
  at(e: number): PlainFigures {
    const first = ECCENTRICITIES[0];
    const last = FARTHEST_SOLVED;
    const range = rangeOf(Math.max(e, first / 10));
    onCurve(this.range, this.drag, this.dragSlopes, range, this.out);
    const drag = e < first ? 1 : Math.exp(this.out.flow);
    onCurve(this.range, this.side, this.sideSlopes, rangeOf(Math.min(last, Math.max(e, first))), this.out);
    return { eccentricity: e, drag, side: this.out.flow * e, within: e <= last };
  }

  /** @param sommerfeld  S = (R/c)² μ N D L/W, over 0; infinite where nothing is carried */
  for(sommerfeld: number): PlainFigures {
    if (sommerfeld === Number.POSITIVE_INFINITY) return this.at(0);
    const logLoad = -Math.log(sommerfeld);
    onCurve(this.logLoad, this.range, this.rangeSlopes, logLoad, this.out);
    let range = this.out.flow;
    // The inverse of a curve is not the curve of the inverse: Newton's steps back onto the one that `at` goes by.
    for (let step = 0; step < 8; step++) {
      onCurve(this.range, this.logLoad, this.loadSlopes, range, this.out);
      const by = (logLoad - this.out.flow) / this.out.slope;
      range += by;
      if (Math.abs(by) < 1e-12) break;
    }
    return this.at(ratioOf(range));
  }
}

const tables = new Map<number, PlainTable>();

/** The table of a length in diameters, solved once and kept: a hundredth of a second or two the first time. */
export function plainTable(lengthOverDiameter: number): PlainTable {
  const key = Math.round(Math.log(lengthOverDiameter) / APART);
  const known = tables.get(key);
  if (known) return known;
  const table = new PlainTable(Math.exp(key * APART));
  if (tables.size >= KEPT) tables.delete(tables.keys().next().value!);
  tables.set(key, table);
  return table;
}

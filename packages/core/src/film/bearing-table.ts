import { type FedFilm, type Fineness, fedFilm, startAfresh } from './fed-film.ts';
import { monotoneSlopes, monotoneValue, onCurve } from './monotone-curve.ts';
import { type SettledJournal, settledAnyhow, settledJournal } from './settled-journal.ts';
import { loadOrSommerfeld, shortAttitude, shortLoad, turnsWithGap } from './short-start.ts';
import type { BearingShape } from './supply.ts';

/**
 * What a fed bearing of one shape does, over load and supply pressure: a plain object, to be kept or sent as it is.
 * All figures are without dimensions, so that clearance, speed and oil do not enter: see `FedBearing`.
 */
export interface BearingTable {
  readonly form: 1;
  readonly shape: BearingShape;
  /** ln S, rising. */
  readonly logSommerfeld: readonly number[];
  /** p*, rising. */
  readonly supply: readonly number[];
  /** By ln S, then by p*. */
  readonly feed: readonly (readonly number[])[];
  /** ln(1 − ε), of the film left. */
  readonly logGap: readonly (readonly number[])[];
  /** ln of (r/c) f. */
  readonly logFriction: readonly (readonly number[])[];
  readonly attitude: readonly (readonly number[])[];
  /** Places where no balance was found: [of ln S, of p*]. Their figures are carried on from the lower pressure. */
  readonly missing: readonly (readonly [number, number])[];
  /** Greatest share by which a flow was lifted so that it never falls as pressure rises. */
  readonly lifted: number;
}

/** Eccentricities of the short bearing whose loads become the rows: closer where the film changes fast. */
const ROWS = [0.05, 0.09, 0.16, 0.26, 0.38, 0.5, 0.61, 0.71, 0.79, 0.86, 0.91, 0.95, 0.975];
const COLUMNS = [0, 0.005, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 8];
/** A full groove with no pressure feeds nothing, and a dry bearing carries nothing. */
const FIRST_OF_GROOVE = 0.003;

const FOR_TABLE: Fineness = { round: 64, half: 6 };

/** Builds the table of a shape: over a hundred loaded films, each started from its neighbours. */
export function bearingTable(shape: BearingShape, fineness: Fineness = FOR_TABLE): BearingTable {
  const columns = turnsWithGap(shape) ? [FIRST_OF_GROOVE, ...COLUMNS.slice(1)] : COLUMNS;
  const film = fedFilm(shape, fineness);
  const loads = ROWS.map((e) => shortLoad(shape, e));
  const missing: [number, number][] = [];
  const byLoad: (SettledJournal | undefined)[][] = [];
  let below: (SettledJournal | undefined)[] = [];
  // From the heaviest load down: there pressure matters least, and the first films are the easiest.
  for (let row = ROWS.length - 1; row >= 0; row--) {
    const line: (SettledJournal | undefined)[] = [];
    for (let column = 0; column < columns.length; column++)
      line.push(settledBeside(film, loads[row]!, columns[column]!, ROWS[row]!, line, below, column));
    line.forEach((found, column) => {
      if (!found) missing.push([ROWS.length - 1 - row, column]);
    });
    byLoad.push(line);
    below = line;
  }
  let lifted = 0;
  const figure = (value: (found: SettledJournal) => number): number[][] =>
    byLoad.map((line) => {
      const figures: number[] = [];
      line.forEach((found, k) => {
        figures.push(found ? value(found) : carriedOn(figures, columns, k));
      });
      return figures;
    });
  const feed = figure((found) => found.effect.feed).map((line) => {
    const steady = [...line];
    for (let k = 1; k < steady.length; k++) {
      const before = steady[k - 1]!;
      if (steady[k]! >= before) continue;
      lifted = Math.max(lifted, (before - steady[k]!) / Math.max(before, 1e-9));
      steady[k] = before;
    }
    return steady;
  });
  return {
    form: 1,
    shape,
    // Loads fall from line to line, so ln S rises.
    logSommerfeld: loads
      .toReversed()
      .map((load) => Math.log(loadOrSommerfeld(load, shape.lengthOverDiameter))),
    supply: columns,
    feed,
    logGap: figure((found) => Math.log(1 - found.eccentricity)),
    logFriction: figure((found) =>
      Math.log(found.effect.friction / Math.hypot(found.effect.along, found.effect.across)),
    ),
    attitude: figure((found) => found.attitude),
    missing,
    lifted,
  };
}

/** A figure not found is carried on in a straight line: with its gap full, a film's flow does just that. */
function carriedOn(figures: readonly number[], columns: readonly number[], k: number): number {
  if (k === 0) return 0;
  if (k === 1) return figures[0]!;
  const slope = (figures[k - 1]! - figures[k - 2]!) / (columns[k - 1]! - columns[k - 2]!);
  return figures[k - 1]! + slope * (columns[k]! - columns[k - 1]!);
}

/** Settles a journal from where its neighbours in the table have settled. */
function settledBeside(
  film: FedFilm,
  load: number,
  supply: number,
  e: number,
  line: readonly (SettledJournal | undefined)[],
  below: readonly (SettledJournal | undefined)[],
  column: number,
): SettledJournal | undefined {
  const closeness = 1e-3;
  const left = line[column - 1];
  const under = below[column];
  const corner = below[column - 1];
  const guesses = [
    left && under && corner ? besides(left, under, corner) : undefined,
    left,
    under,
    { eccentricity: e, attitude: shortAttitude(e) },
  ];
  const first = guesses.find((guess) => guess !== undefined)!;
  if (left === undefined) startAfresh(film);
  return (
    settledJournal(film, load, supply, first, closeness) ??
    settledAnyhow(film, load, supply, guesses[3]!, closeness)
  );
}

type Place = { readonly eccentricity: number; readonly attitude: number };

/** The fourth corner of a parallelogram of journal places. */
function besides(a: Place, b: Place, c: Place): Place {
  const point = ({ eccentricity, attitude }: Place): readonly [number, number] => {
    const range = Math.log((1 + eccentricity) / (1 - eccentricity));
    return [range * Math.cos(attitude), range * Math.sin(attitude)];
  };
  const [pa, pb, pc] = [point(a), point(b), point(c)];
  const [x, y] = [pa[0] + pb[0] - pc[0], pa[1] + pb[1] - pc[1]];
  return { eccentricity: Math.tanh(Math.hypot(x, y) / 2), attitude: Math.atan2(y, x) };
}

/** How the feed of one bearing grows with p* while its load stays: for a network that seeks its pressure. */
export interface FeedCurve {
  readonly supply: Float64Array;
  readonly feed: Float64Array;
  readonly slopes: Float64Array;
  /** Whether S lies within the table; outside, its nearest row is taken. */
  readonly within: boolean;
}

/** Least slope of a feed, as a share of its mean slope: a flow that stands still would leave a network undecided. */
const LEAST_SLOPE = 1e-6;

export function feedCurve(table: BearingTable, sommerfeld: number): FeedCurve {
  const logS = Math.log(sommerfeld);
  const x = table.logSommerfeld;
  const supply = Float64Array.from(table.supply);
  const feed = new Float64Array(supply.length);
  for (let column = 0; column < feed.length; column++)
    feed[column] = monotoneValue(x, (row) => table.feed[row]![column]!, logS);
  for (let k = 1; k < feed.length; k++) feed[k] = Math.max(feed[k]!, feed[k - 1]!);
  const slopes = new Float64Array(feed.length);
  monotoneSlopes(supply, feed, slopes);
  const last = feed.length - 1;
  const least = (LEAST_SLOPE * (feed[last]! - feed[0]!)) / (supply[last]! - supply[0]!) + 1e-12;
  for (let k = 0; k < slopes.length; k++) slopes[k] = Math.max(slopes[k]!, least);
  return { supply, feed, slopes, within: logS >= x[0]! - 1e-9 && logS <= x[x.length - 1]! + 1e-9 };
}

/** Figures of a bearing out of its table. */
export interface TabledBearing {
  readonly eccentricity: number;
  readonly attitude: number;
  readonly feedFlow: number;
  readonly friction: number;
  /** Whether S and p* lie within the table; outside, the edge is taken, and flow goes straight on with pressure. */
  readonly within: boolean;
}

export function tabledBearing(table: BearingTable, sommerfeld: number, supply: number): TabledBearing {
  const logS = Math.log(sommerfeld);
  const curve = feedCurve(table, sommerfeld);
  const { supply: columns, logSommerfeld: rows } = table;
  const figure = (figures: readonly (readonly number[])[]): number =>
    monotoneValue(columns, (column) => monotoneValue(rows, (row) => figures[row]![column]!, logS), supply);
  const out = { flow: 0, slope: 0 };
  onCurve(curve.supply, curve.feed, curve.slopes, supply, out);
  const feedFlow = out.flow;
  return {
    eccentricity: 1 - Math.exp(figure(table.logGap)),
    attitude: figure(table.attitude),
    feedFlow,
    friction: Math.exp(figure(table.logFriction)),
    within: curve.within && supply >= columns[0]! && supply <= columns[columns.length - 1]!,
  };
}

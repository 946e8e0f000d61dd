import { Deliveries, Drawn, type Entries, Films, Holes, Owns, Passages, Reliefs, Valves } from './columns.ts';
import type { Parameters } from './element.ts';
import { fallingHead, turningHead } from './openings.ts';
import type { FilmPiece, HoleEdge, Piece } from './pieces.ts';
import type { ReadElement } from './read.ts';

/** One element between two nodes; −1 is the sump, where the pressure is zero. */
export interface PlacedElement extends ReadElement {
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

/**
 * A network as columns of numbers, one set for each shape of law. Coefficients that end in 0 are as geometry leaves
 * them; those beside them are what speed and oil make of them.
 */
export interface Flat {
  readonly nodes: number;
  readonly films: Films;
  /** Films between two nodes; all others drain a node to the sump and are taken together by node. */
  readonly between: readonly number[];
  readonly drawn: Drawn;
  readonly deliveries: Deliveries;
  readonly holes: Holes;
  readonly valves: Valves;
  readonly reliefs: Reliefs;
  readonly passages: Passages;
  readonly owns: Owns;
  /** By node: what drains whatever the rest does, and what flows out at no pressure. */
  readonly ground: Float64Array;
  readonly constant: Float64Array;
  /** Rises of the films over the sump [K]; `film` counts in here. */
  readonly rises: number[];
  /** Pieces of each element: the place of each in its shape's columns. */
  readonly places: readonly (readonly number[])[];
}

const shapesOf = ({ law, parameters, choices }: ReadElement, p: Parameters = parameters): readonly Piece[] =>
  'pieces' in law ? law.pieces(p, choices) : [{ shape: 'own', flow: (c) => law.flow(p, c, choices) }];

/** @param slotOf  place of the coupling of two nodes among the off-diagonal entries; the sump is −1 */
export function flatOf(
  nodes: number,
  elements: readonly PlacedElement[],
  slotOf: (from: number, to: number) => number,
): Flat {
  const counts = { film: 0, drawn: 0, delivery: 0, hole: 0, valve: 0, relief: 0, passage: 0, own: 0 };
  const places = elements.map((element) =>
    shapesOf(element).map((piece) => {
      if (piece.shape === 'film' && piece.drawn) counts.drawn++;
      return counts[piece.shape]++;
    }),
  );
  const between: number[] = [];
  const flat: Flat = {
    nodes,
    films: new Films(counts.film),
    between,
    drawn: new Drawn(counts.drawn),
    deliveries: new Deliveries(counts.delivery),
    holes: new Holes(counts.hole),
    valves: new Valves(counts.valve),
    reliefs: new Reliefs(counts.relief),
    passages: new Passages(counts.passage),
    owns: new Owns(counts.own),
    ground: new Float64Array(nodes + 1),
    constant: new Float64Array(nodes + 1),
    rises: [],
    places,
  };
  const columns = {
    film: flat.films,
    delivery: flat.deliveries,
    hole: flat.holes,
    valve: flat.valves,
    relief: flat.reliefs,
    passage: flat.passages,
    own: flat.owns,
  } as const;
  const sump = (node: number): number => (node < 0 ? nodes : node);
  let drawing = 0;
  elements.forEach((element, e) => {
    const join = (of: Entries, i: number): void => {
      of.from[i] = sump(element.from);
      of.to[i] = sump(element.to);
      of.slot[i] = slotOf(element.from, element.to);
      of.element[i] = e;
    };
    shapesOf(element).forEach((piece, k) => {
      const i = places[e]![k]!;
      join(columns[piece.shape], i);
      if (piece.shape !== 'film') return;
      if (element.from >= 0 && element.to >= 0) between.push(i);
      if (!piece.drawn) return;
      join(flat.drawn, drawing);
      flat.drawn.bearing[drawing++] = i;
    });
  });
  elements.forEach((element, e) => {
    writeElement(flat, element, e, element.parameters);
  });
  return flat;
}

/** Puts an element's parameters into its entries. */
export function writeElement(flat: Flat, element: ReadElement, e: number, p: Parameters): void {
  const count = p.count!;
  const lift = turningHead(p);
  const fall = fallingHead(p);
  const film = filmOfRise(flat, p.film_rise!);
  shapesOf(element, p).forEach((piece, k) => {
    const i = flat.places[e]![k]!;
    const common = (of: Entries, at = i): void => {
      of.lift[at] = lift;
      of.fall[at] = fall;
      of.film[at] = film;
    };
    switch (piece.shape) {
      case 'film':
        common(flat.films);
        writeFilm(flat, piece, i, count);
        for (let d = 0; d < flat.drawn.size; d++) if (flat.drawn.bearing[d] === i) common(flat.drawn, d);
        break;
      case 'delivery':
        common(flat.deliveries);
        flat.deliveries.perRadian[i] = count * piece.perRadian;
        break;
      case 'hole':
        common(flat.holes);
        flat.holes.area[i] = count * piece.area;
        writeEdge(flat.holes, piece, i);
        break;
      case 'valve':
        common(flat.valves);
        flat.valves.area[i] = count * piece.area;
        writeEdge(flat.valves, piece, i);
        flat.valves.opening[i] = piece.opening;
        flat.valves.range[i] = piece.range;
        break;
      case 'relief':
        common(flat.reliefs);
        flat.reliefs.area[i] = count * piece.coefficient;
        flat.reliefs.cracking0[i] = piece.cracking;
        flat.reliefs.perPascal[i] = piece.perPascal;
        flat.reliefs.fullest[i] = piece.fullest;
        break;
      case 'passage':
        common(flat.passages);
        writePassage(flat, piece, i, count);
        break;
      case 'own':
        common(flat.owns);
        flat.owns.count[i] = count;
        flat.owns.make[i] = piece.flow;
    }
  });
}

function writeEdge(holes: Holes, { diameter, creep, creeping }: HoleEdge, i: number): void {
  holes.diameter[i] = diameter;
  holes.creep[i] = creep;
  holes.creeping[i] = creeping ? 1 : 0;
}

function filmOfRise({ rises }: Flat, rise: number): number {
  const known = rises.indexOf(rise);
  return known >= 0 ? known : rises.push(rise) - 1;
}

function writeFilm({ films, drawn }: Flat, piece: FilmPiece, i: number, count: number): void {
  const { journal } = piece;
  films.strength[i] = count * piece.strength;
  films.gap[i] = piece.gap;
  films.growth[i] = piece.growth;
  if (journal && 'load' in journal) {
    films.told[i] = -1;
    films.load[i] = journal.load;
    films.loadPerKrpm2[i] = journal.loadPerKrpm2;
    films.stiffness[i] = journal.stiffness;
  } else films.told[i] = journal?.eccentricity ?? 0;
  if (!piece.drawn) return;
  for (let d = 0; d < drawn.size; d++) {
    if (drawn.bearing[d] !== i) continue;
    drawn.amount[d] = count * piece.drawn.amount;
    drawn.half[d] = piece.drawn.half;
  }
}

/** Where 64/Re and 0.3164 Re^−¼ cross. */
const CROSSING = (64 / 0.3164) ** (4 / 3);

/** Several equal passages at once: each loss in terms of the flow of all of them. */
function writePassage(
  { passages }: Flat,
  { bore: d, length, minor }: Extract<Piece, { shape: 'passage' }>,
  i: number,
  count: number,
): void {
  const section = (Math.PI / 4) * d * d;
  passages.linear0[i] = (128 * length) / (Math.PI * d ** 4) / count;
  passages.minor0[i] = minor / (2 * section * section) / (count * count);
  passages.turbulent0[i] =
    (0.3164 * (d / section) ** -0.25 * length) / (2 * d * section * section) / count ** 1.75;
  passages.crossing0[i] = (count * CROSSING * section) / d;
}

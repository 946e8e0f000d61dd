import { answered, parseQuantity } from '@fettle/core';
import type { Assessed } from '../assess/assessment.ts';
import { standardUncertaintyOf } from '../assess/instrument.ts';
import type { Catalogue } from '../assess/relations.ts';
import type { Book } from '../fold/book.ts';
import { axisValues, type Place, placesOf, placeText } from '../sheet/places.ts';
import type { Relation } from '../sheet/relation.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { cellsOf, figureOf, type PlaceCell } from './job-maps.ts';

/** One spot of a face, with what was read there. */
interface FaceSpot {
  readonly value: string;
  /** Along and across the face [m]. */
  readonly x: number;
  readonly y: number;
  readonly cell: PlaceCell;
  /** Above the lower of the two planes that just hold the face [m]; once enough of it is read. */
  readonly above?: number;
  /** The zone hangs on this spot: highest or lowest of all. */
  readonly holds?: 'high' | 'low';
}

/** A face probed spot by spot. */
export interface JobFace {
  /** What is read at the spots. */
  readonly characteristic: Characteristic;
  /** The axis of its spots. */
  readonly axis: string;
  /** Which of several such faces. */
  readonly place: Place;
  readonly spots: readonly FaceSpot[];
  readonly measured: number;
  /** The least distance between two planes that hold what was read. */
  readonly zone?: {
    readonly flatness: number;
    readonly leastSquares: number;
    readonly tilt: number;
  };
  /** The characteristic that is judged by it, and how. */
  readonly judged?: { readonly characteristic: Characteristic; readonly judgement?: Assessed };
  /** The instrument it is usually probed with, where one is owned, and what a zone by it is doubted by at most. */
  readonly by?: { readonly instrument: string; readonly most: number };
}

/** Whether a relation is the flatness of this characteristic over its spots. */
function isFlatnessOf(relation: Relation | undefined, id: string, axis: string): boolean {
  if (typeof relation !== 'object' || !('calculator' in relation)) return false;
  return Object.values(relation.calculator.inputs).some(
    (input) => 'of' in input && input.over === axis && input.of === id,
  );
}

const metres = (text: string): number => {
  const read = parseQuantity(text, 'length');
  // The sheet's own check has read it before.
  return read.ok ? read.value.value : 0;
};

/**
 * Standard uncertainty of a zone by one instrument, at most: what all its readings have alike drops out, and the weights
 * of the rest are most unkind where the zone hangs on two spots alone, one high, one low.
 */
function zoneBy(book: Book, { with: type, kind }: Characteristic): JobFace['by'] {
  const instrument = [...book.instruments.values()].find(({ body }) => body.type === type);
  const u = instrument && kind === 'length' ? standardUncertaintyOf(instrument, kind, 0) : undefined;
  if (!instrument || u === undefined) return undefined;
  const { name, uncertainty } = instrument.body;
  return { instrument: name, most: u * Math.sqrt(2 * (1 - uncertainty.common_share)) };
}

/** Every face of which the sheet says where its spots lie, read or not. */
export function jobFaces(book: Book, judgements: readonly Assessed[], catalogue: Catalogue): JobFace[] {
  const { sheet } = book;
  const planes = catalogue.get('plane-form');
  if (!sheet?.spots || !planes) return [];
  const found: JobFace[] = [];
  for (const characteristic of book.characteristics.values()) {
    const axis = characteristic.places.find((one) => Object.hasOwn(sheet.spots ?? {}, one));
    if (axis === undefined || characteristic.kind !== 'length' || characteristic.relation !== undefined)
      continue;
    const spots = sheet.spots[axis]!;
    const cells = cellsOf(book, characteristic, judgements);
    const others = characteristic.places.filter((one) => one !== axis);
    const flat = [...book.characteristics.values()].find(({ relation }) =>
      isFlatnessOf(relation, characteristic.id, axis),
    );
    for (const place of placesOf(sheet, { places: others, only: characteristic.only })) {
      const read = axisValues(sheet, characteristic, axis).flatMap((value) => {
        const cell = cells.get(placeText({ ...place, [axis]: value }, characteristic.places));
        const spot = spots[value];
        return cell && spot ? [{ value, x: metres(spot[0]), y: metres(spot[1]), cell }] : [];
      });
      const heights = read.filter(({ cell }) => figureOf(cell) !== undefined);
      const answer = answered(
        planes,
        { points: heights.map(({ x, y, cell }) => [x, y, figureOf(cell)!]) },
        { bareNumbersAreSi: true },
      );
      const judgement =
        flat &&
        judgements.find(
          (one) =>
            one.characteristic.id === flat.id &&
            Object.entries(one.place).every(
              ([key, value]) => place[key] === undefined || place[key] === value,
            ),
        );
      const by = zoneBy(book, characteristic);
      found.push({
        characteristic,
        axis,
        place,
        spots: 'results' in answer ? onPlane(read, answer.results) : read,
        measured: heights.length,
        ...('results' in answer && {
          zone: {
            flatness: number(answer.results, 'flatness'),
            leastSquares: number(answer.results, 'least_squares_flatness'),
            tilt: number(answer.results, 'tilt'),
          },
        }),
        ...(flat && { judged: { characteristic: flat, ...(judgement && { judgement }) } }),
        ...(by && { by }),
      });
    }
  }
  return found;
}

type Results = Readonly<Record<string, { readonly value: unknown } | undefined>>;
const number = (results: Results, key: string): number => Number(results[key]?.value);

/** Each spot's height over the lower plane, and the spots on which both planes rest. */
function onPlane(read: readonly FaceSpot[], results: Results): FaceSpot[] {
  const [a, b, c] = [number(results, 'slope_x'), number(results, 'slope_y'), number(results, 'middle')];
  const half = number(results, 'flatness') / 2;
  const weights = results.weights?.value as readonly number[];
  let next = 0;
  return read.map((spot): FaceSpot => {
    const height = figureOf(spot.cell);
    if (height === undefined) return spot;
    const weight = weights[next++] ?? 0;
    const above = Math.max(0, height - a * spot.x - b * spot.y - c + half);
    return {
      ...spot,
      above,
      ...(Math.abs(weight) > 1e-9 && { holds: weight > 0 ? ('high' as const) : ('low' as const) }),
    };
  });
}

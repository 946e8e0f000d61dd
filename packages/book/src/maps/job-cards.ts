import type { Assessed } from '../assess/assessment.ts';
import type { Book } from '../fold/book.ts';
import { axisValues } from '../sheet/places.ts';
import { characteristicsIn } from '../sheet/relation.ts';
import type { Characteristic, SpecSheet } from '../sheet/sheet.ts';
import { cellsOf, figureOf, type PlaceCell } from './job-maps.ts';

/** What one characteristic reads along an axis, in the order of the sheet. */
export interface CardColumn {
  readonly characteristic: Characteristic;
  /** By value of the axis; undefined where the characteristic has no such place. */
  readonly cells: readonly (PlaceCell | undefined)[];
  readonly mean?: number;
  /** ∛ of the mean cube: the even gap that leaks as these do. For depths round a face. */
  readonly meanCube?: number;
  /** What depths round a face are added into, by the sheet's own relations. */
  readonly into?: readonly { readonly characteristic: Characteristic; readonly judgement: Assessed }[];
}

/** Everything that is read once at each of the same things: lobes, valves, points of a groove. */
export interface JobCard {
  readonly axis: string;
  readonly rows: readonly string[];
  readonly columns: readonly CardColumn[];
}

/** Points of one worn face leak side by side, each with the cube of its depth. */
export const POINTS = 'point';

/** A card for every axis along which something is read; loads of springs and clearances of valves on one card. */
export function jobCards(book: Book, judgements: readonly Assessed[]): JobCard[] {
  const sheet: Pick<SpecSheet, 'axes'> = book.sheet ?? { axes: {} };
  return Object.keys(sheet.axes).flatMap((axis) => {
    const columns = [...book.characteristics.values()]
      .filter(({ places, kind }) => places.length === 1 && places[0] === axis && kind !== 'seen')
      .map((characteristic): CardColumn => {
        const cells = cellsOf(book, characteristic, judgements);
        const figures = [...cells.values()].flatMap((cell) => figureOf(cell) ?? []);
        const mean = (of: (value: number) => number): number =>
          figures.reduce((sum, value) => sum + of(value), 0) / figures.length;
        const into =
          axis === POINTS && characteristic.kind === 'length'
            ? judgements.filter(
                ({ characteristic: { relation } }) =>
                  relation !== undefined && characteristicsIn(relation).includes(characteristic.id),
              )
            : [];
        return {
          characteristic,
          ...(into.length > 0 && {
            into: into.map((judgement) => ({ characteristic: judgement.characteristic, judgement })),
          }),
          cells: (sheet.axes[axis] ?? []).map((value) => cells.get(value)),
          ...(figures.length > 1 && { mean: mean((value) => value) }),
          ...(figures.length > 1 &&
            axis === POINTS &&
            characteristic.kind === 'length' && { meanCube: Math.cbrt(mean((value) => value ** 3)) }),
        };
      });
    const rows = axisValues(sheet, { places: [axis] }, axis);
    return columns.length === 0 ? [] : [{ axis, rows, columns }];
  });
}

import { inUnit } from '@fettle/core';
import { type LimitSetName, limitsOf } from '../assess/limits.ts';
import type { Answer } from '../assess/verdict.ts';
import type { Characteristic } from '../sheet/sheet.ts';
import { axisWords, cellWords, type UnitOf } from '../words/maps.ts';
import { bare, limitWords, shown } from '../words/quantity.ts';
import { type CardColumn, POINTS } from './job-cards.ts';
import type { JobFace } from './job-faces.ts';
import { figureOf, type JobMap, type PlaceCell } from './job-maps.ts';
import type { JobSpring, SpringReading } from './job-springs.ts';

// What a picture of each map is given: figures in the unit shown, and the words in it.

const SHADES = 5;
const sets: readonly LimitSetName[] = ['new', 'wear'];

/** A number of the unit shown; SI where none is chosen. */
const inShown = (unit: string | undefined, si: number): number =>
  unit === undefined ? si : inUnit(si, unit);

/** Greys by how far a place is from as new, in five equal steps up to the farthest. */
function stepsTo(c: Characteristic, farthest: number, unit: string | undefined) {
  if (!(farthest > 0)) return [];
  const steps = Array.from({ length: SHADES }, (_, k) => {
    const upTo = (farthest * (k + 1)) / SHADES;
    return {
      upTo: inShown(unit, upTo) * (1 + 1e-9),
      text: k === SHADES - 1 ? shown(c, upTo, unit) : bare(c, upTo, unit),
    };
  });
  // Steps finer than what is printed would read alike.
  return steps.filter(({ text }, i) => text.split(' ')[0] !== steps[i + 1]?.text.split(' ')[0]);
}

/** Bores or journals cut open, each place tinted by how far it is from as new. */
export function unrolledPicture({ characteristic: c, ...map }: JobMap, unitOf: UnitOf, worst: string) {
  const unit = unitOf(c);
  const farthest = Math.abs(map.farthest?.off ?? 0);
  const cellOf = (cell: PlaceCell) =>
    cell.operand?.kind === 'value'
      ? {
          text: bare(c, cell.operand.q.value, unit),
          deviation: cell.off === undefined ? undefined : inShown(unit, cell.off),
          verdict: cell.verdict,
          worst: cell.worst,
        }
      : undefined;
  return {
    rows: map.rows.map((value) => axisWords(map.row, value)),
    columns: map.columns.map((value) => axisWords(map.column, value)),
    strips: map.strips.map(({ value, cells }) => ({
      name: map.strip === undefined ? '' : `${map.strip} ${value}`,
      cells: cells.map((line) => line.map(cellOf)),
    })),
    steps: stepsTo(c, farthest, unit),
    worst,
  };
}

/** A face from above, once a zone can be told. */
export function facePicture({ characteristic: c, spots, zone }: JobFace, unitOf: UnitOf) {
  const unit = unitOf(c);
  const fifth = (zone?.flatness ?? 0) / SHADES;
  return {
    zone: zone?.flatness ?? 0,
    spots: spots.map(({ value, x, y, above, holds }) => ({
      name: value,
      x,
      y,
      above,
      text: above === undefined ? undefined : bare(c, above, unit),
      holds,
    })),
    steps: zone
      ? Array.from(
          { length: SHADES },
          (_, k) =>
            `${bare(c, k * fifth, unit)} to ${k === SHADES - 1 ? shown(c, zone.flatness, unit) : bare(c, (k + 1) * fifth, unit)}`,
        )
      : [],
    words: { high: 'the upper plane rests here', low: 'the lower plane rests here', missing: 'not probed' },
  };
}

/** Depths round a ring, where they are read at points; none else, or before two are read. */
export function ringPicture(
  { characteristic: c, cells, mean, meanCube }: CardColumn,
  axis: string,
  unitOf: UnitOf,
) {
  if (axis !== POINTS || c.kind !== 'length' || mean === undefined) return undefined;
  const unit = unitOf(c);
  const limit = sets.flatMap((set) => limitsOf(c, set, undefined)?.upper ?? []).at(-1);
  return {
    points: cells.flatMap((cell) => {
      if (!cell) return [];
      const value = figureOf(cell);
      return [
        {
          name: axisWords(axis, cell.place[axis] ?? ''),
          value: value === undefined ? undefined : inShown(unit, value),
          text: value === undefined ? undefined : cellWords(c, cell, unitOf),
          worst: cell.worst,
        },
      ];
    }),
    rings: [
      ...(limit === undefined
        ? []
        : [{ value: inShown(unit, limit), text: `limit ${shown(c, limit, unit)}`, dash: 'long' as const }]),
      ...(meanCube === undefined
        ? []
        : [
            {
              value: inShown(unit, meanCube),
              text: `mean cube ${shown(c, meanCube, unit)}: so deep all round it would leak as much`,
              dash: 'short' as const,
            },
          ]),
    ],
  };
}

/** Loads of springs by their length, against the drawing's. */
export function springPicture({ loads, free, solid }: JobSpring, unitOf: UnitOf) {
  const [first] = loads;
  const loadUnit = first && unitOf(first.characteristic);
  const own = free ?? solid;
  const lengthUnit = own ? unitOf(own.characteristic) : undefined;
  const limits = ({ characteristic: c }: SpringReading) =>
    limitsOf(c, 'new', undefined) ?? limitsOf(c, 'wear', undefined);
  /** What the drawing says a spring's own length is. */
  const drawnOf = (of: SpringReading): number | undefined => {
    const { lower, upper, target } = limits(of) ?? {};
    const middle = lower !== undefined && upper !== undefined ? (lower + upper) / 2 : (upper ?? lower);
    const drawn = target ?? middle;
    return drawn === undefined ? undefined : inShown(lengthUnit, drawn);
  };
  const lengths = [
    ...(free ? [{ of: free, word: 'free' }] : []),
    ...(solid ? [{ of: solid, word: 'solid' }] : []),
  ].flatMap(({ of, word }) => {
    const c = of.characteristic;
    const drawn = drawnOf(of);
    const read = of.cells.flatMap((cell) => figureOf(cell) ?? []);
    const at = read[0];
    return [
      ...(drawn === undefined
        ? []
        : [
            {
              at: drawn,
              text: `${word}, drawing ${limitWords(c, limits(of)!, unitOf(c))}`,
              measured: false,
            },
          ]),
      ...(at === undefined
        ? []
        : [{ at: inShown(lengthUnit, at), text: `${word} ${shown(c, at, unitOf(c))}`, measured: true }]),
    ];
  });
  const decides = (cells: readonly PlaceCell[]): PlaceCell | undefined =>
    cells.find(({ verdict }) => verdict === ('out' satisfies Answer)) ?? cells.find(({ operand }) => operand);
  return {
    lengthAxis: `length${lengthUnit === undefined ? '' : `, ${lengthUnit}`}`,
    loadAxis: `load${loadUnit === undefined ? '' : `, ${loadUnit}`}`,
    wanted: loads.flatMap((one) => {
      const { lower, upper } = limits(one) ?? {};
      const c = one.characteristic;
      return lower === undefined || upper === undefined
        ? []
        : [
            {
              at: inShown(lengthUnit, one.at!),
              lower: inShown(loadUnit, lower),
              upper: inShown(loadUnit, upper),
              text: limitWords(c, { lower, upper }, unitOf(c)),
            },
          ];
    }),
    free: free && drawnOf(free),
    read: loads.flatMap(({ at, cells, characteristic: c }) =>
      cells.flatMap((cell) => {
        const load = figureOf(cell);
        if (load === undefined) return [];
        const where = Object.entries(cell.place).map(([axis, value]) => axisWords(axis, value));
        return [
          {
            at: inShown(lengthUnit, at!),
            load: inShown(loadUnit, load),
            text: cell === decides(cells) ? [...where, cellWords(c, cell, unitOf)].join(', ') : undefined,
          },
        ];
      }),
    ),
    lengths,
    words: { wanted: 'wanted', read: 'read' },
  };
}

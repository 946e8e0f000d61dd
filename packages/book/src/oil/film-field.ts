import { type BearingShape, type FedBearing, fedBearingFor } from '@fettle/core';
import type { FilledCircuit } from './circuit.ts';
import type { BearingFilm } from './film-temperatures.ts';
import { oilAt } from './oil-at.ts';
import { oilShares, type Running } from './pressure.ts';

/** The film of one bearing under its mean load, solved over its finite length and conserving mass. */
export interface FilmField {
  readonly element: string;
  readonly film: FedBearing;
  /** One of the solution's pressures in pascals. */
  readonly pascal: number;
  readonly clearance: number;
  /** Mean size of the load over the cycle, taken as steady [N] */
  readonly load: number;
  /** At the bearing's own feed, without what a turning drilling adds [Pa] */
  readonly supply: number;
}

/**
 * A steady picture of a bearing whose load turns and beats: the mean load, standing still, at the film temperature
 * that the heat balance gives. For looking at, not for judging.
 *
 * @returns undefined for bearings whose load is not known, whose supply is no groove or hole, or whose film finds no
 *          balance
 */
export function filmField(
  circuit: FilledCircuit,
  film: BearingFilm,
  running: Running,
): FilmField | undefined {
  const { load, computed, element } = film;
  const given = (circuit.input.elements as readonly Record<string, unknown>[]).find(
    ({ id }) => id === element,
  );
  const of = (key: string): number | undefined => circuit.network.parameters[`${element}.${key}`];
  const diameter = of('diameter');
  if (!load || !given || diameter === undefined) return undefined;
  const shape = shapeOf(String(given.law), diameter, of);
  if (!shape) return undefined;
  const rise = computed?.rise ?? film.assumed.rise;
  const { viscosity } = oilAt(circuit, running.temperature + rise);
  const supply = oilShares(circuit, running, { as: 'measured' }).pressures[String(given.from)] ?? 0;
  const radius = diameter / 2;
  const pascal = (viscosity * running.speed * radius * radius) / (film.clearance * film.clearance);
  const sommerfeld =
    ((radius / film.clearance) ** 2 *
      viscosity *
      (running.speed / (2 * Math.PI)) *
      diameter *
      diameter *
      shape.lengthOverDiameter) /
    load.mean;
  const solved = fedBearingFor(shape, sommerfeld, supply / pascal);
  return solved && { element, film: solved, pascal, clearance: film.clearance, load: load.mean, supply };
}

function shapeOf(
  law: string,
  diameter: number,
  of: (key: string) => number | undefined,
): BearingShape | undefined {
  const hole = of('hole_diameter');
  const length = of('length');
  if (hole !== undefined && length !== undefined)
    return {
      lengthOverDiameter: length / diameter,
      supply: { kind: 'hole', diameter: hole / length, at: Math.PI },
    };
  const land = of('land_length');
  if (law !== 'groove-bearing' || land === undefined) return undefined;
  // The circuit does not say how wide the groove is, only how wide its lands: a sixth of both is drawn.
  return {
    lengthOverDiameter: (2 * land * GROOVED) / diameter,
    supply: { kind: 'full-groove', width: 1 - 1 / GROOVED },
  };
}

/** Lands with their groove over the lands alone, for the picture. */
const GROOVED = 7 / 6;

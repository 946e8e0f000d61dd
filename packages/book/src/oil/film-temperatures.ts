import {
  type Caution,
  type HeatedFilm,
  heatedNetwork,
  type Issue,
  journalOrbit,
  metre,
  type Orbit,
  type Outcome,
  ok,
  pascalSecond,
  type SolvedNetwork,
  second,
  solvedNetwork,
} from '@fettle/core';
import { type BearingLoad, type BearingLoads, bearingLoads, type FilledCrank } from './bearing-loads.ts';
import type { FilledCircuit } from './circuit.ts';
import { filmCautions } from './film-cautions.ts';
import { type Gap, type LeastFilm, leastFilms } from './least-films.ts';
import { oilAt } from './oil-at.ts';
import type { Running } from './pressure.ts';

/** One bearing's film at one speed and temperature. */
export interface BearingFilm {
  readonly element: string;
  /** Its load over the cycle; unknown for bearings the crank does not load, such as a cam's. */
  readonly load?: BearingLoad;
  /** Radial [m], and whether it was measured. */
  readonly clearance: number;
  readonly measured: boolean;
  readonly lengthOverDiameter: number;
  /** Over the sump [K], and eccentricity ratio: as the circuit assumes them. */
  readonly assumed: { readonly rise: number; readonly eccentricity: number };
  /** As friction, flow and mean load make them; absent when they did not settle. */
  readonly computed?: HeatedFilm;
  readonly orbit?: Orbit;
  /** Of the path and under the mean load, with the doubt of the readings. */
  readonly least: LeastFilm;
}

export interface FilmPrediction {
  readonly running: Running;
  readonly loads?: BearingLoads;
  readonly films: readonly BearingFilm[];
  /** At the gauge [Pa]: with the film temperatures and eccentricities that the circuit assumes, and with those computed. */
  readonly gauge: { readonly assumed: number; readonly computed?: number };
  /** Why there are no computed films. */
  readonly unsettled?: Issue;
  readonly cautions: readonly Caution[];
}

/**
 * Films of all bearings whose journals turn in pressure-fed oil: temperatures from a heat balance around the network,
 * and, where the crank is known, the path of the journal over the cycle at that film temperature.
 *
 * @param crank  undefined: bearings keep the eccentricities the circuit assumes, and have no path
 * @param load   pressure of the charge over the air outside
 */
export function filmPrediction(
  circuit: FilledCircuit,
  crank: FilledCrank | undefined,
  running: Running,
  load: number,
): Outcome<FilmPrediction> {
  const loads = crank && bearingLoads(crank, { speed: running.speed, load });
  const byElement = new Map(loads?.bearings.map((one) => [one.element, one]));
  const measured = Object.fromEntries(
    circuit.parameters.map(({ name, nominal, measured: read }) => [
      name,
      // A gap that reads as closed leaks nothing, and the network wants a number.
      Math.max(read?.value ?? nominal, nominal * 1e-4),
    ]),
  );
  const values = { ...circuit.network.parameters, ...measured };
  const elements = circuit.network.elements.filter(
    (id) => byElement.has(id) || (isBearing(values, id) && values[`${id}.film_rise`]! > 0),
  );
  const conditions = { ...running, parameters: measured };
  const before = solvedNetwork(circuit.network, conditions);
  if (!before.ok) return before;
  const heatedWith = (parameters: Readonly<Record<string, number>>, start?: Float64Array) =>
    heatedNetwork(
      circuit.network,
      { ...running, parameters, ...(start && { start }) },
      elements.map((element) => {
        const carried = byElement.get(element)?.mean;
        return { element, ...(carried !== undefined && { load: carried }) };
      }),
    );
  const heated = heatedWith(measured);
  const pathOf = (
    element: string,
    clearance: number,
    viscosity: number,
    start?: readonly [number, number],
  ) => {
    const on = byElement.get(element)!;
    const grooved = values[`${element}.land_length`] !== undefined;
    return journalOrbit({
      load: on.load,
      meanTurning: on.meanTurning,
      period: second((4 * Math.PI) / running.speed),
      radius: metre(values[`${element}.diameter`]! / 2),
      land: metre(values[`${element}.${grooved ? 'land_length' : 'length'}`]!),
      lands: grooved ? 2 : 1,
      clearance: metre(clearance),
      viscosity: pascalSecond(viscosity),
      ...(start && { start }),
    });
  };
  const gaps = elements.map((element, i): Gap => {
    const computed = heated.ok ? heated.value.films[i] : undefined;
    const clearance = values[`${element}.radial_clearance`]!;
    const viscosity =
      computed?.viscosity ?? oilAt(circuit, running.temperature + values[`${element}.film_rise`]!).viscosity;
    return {
      element,
      clearance,
      viscosity,
      computed,
      orbit: byElement.has(element) ? pathOf(element, clearance, viscosity) : undefined,
    };
  });
  const least = leastFilms(circuit.parameters, measured, gaps, {
    heated: (parameters) => {
      const moved = heatedWith(parameters, heated.ok ? heated.value.solved.state : undefined);
      return moved.ok ? ok(moved.value.films) : moved;
    },
    leastOver: ({ element, orbit }, clearance, viscosity) =>
      pathOf(element, clearance, viscosity, [orbit!.x.at(-1)!, orbit!.y.at(-1)!]).leastFilm,
  });
  const films = gaps.map(({ element, clearance, computed, orbit }, i): BearingFilm => {
    const on = byElement.get(element);
    const grooved = values[`${element}.land_length`] !== undefined;
    const land = values[`${element}.${grooved ? 'land_length' : 'length'}`]!;
    return {
      element,
      ...(on && { load: on }),
      clearance,
      measured: circuit.parameters.some(
        ({ name, measured: read }) => name === `${element}.radial_clearance` && read !== undefined,
      ),
      lengthOverDiameter: land / values[`${element}.diameter`]!,
      assumed: {
        rise: values[`${element}.film_rise`]!,
        eccentricity: values[`${element}.eccentricity_ratio`] ?? Number.NaN,
      },
      ...(computed && { computed }),
      ...(orbit && { orbit }),
      least: least[i]!,
    };
  });
  const at = ({ pressures }: SolvedNetwork): number => pressures[circuit.gauge]!;
  return ok({
    running,
    ...(loads && { loads }),
    films,
    gauge: { assumed: at(before.value), ...(heated.ok && { computed: at(heated.value.solved) }) },
    ...(!heated.ok && { unsettled: heated.issues[0]! }),
    cautions: filmCautions(films, loads !== undefined),
  });
}

/** A turning journal with a film of its own; what only swings is not heated. */
const isBearing = (values: Readonly<Record<string, number>>, id: string): boolean =>
  values[`${id}.speed_ratio`] !== undefined && values[`${id}.radial_clearance`] !== undefined;

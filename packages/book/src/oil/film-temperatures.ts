import {
  type Caution,
  FARTHEST_SOLVED,
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

/** Under it a film is about as thin as the roughness of a good journal [m]. From memory, no source. */
const ROUGHNESS = 1e-6;

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
  const heated = heatedNetwork(
    circuit.network,
    conditions,
    elements.map((element) => {
      const carried = byElement.get(element)?.mean;
      return { element, ...(carried !== undefined && { load: carried }) };
    }),
  );
  const films = elements.map((element, i): BearingFilm => {
    const computed = heated.ok ? heated.value.films[i] : undefined;
    const on = byElement.get(element);
    const rise = values[`${element}.film_rise`]!;
    const diameter = values[`${element}.diameter`]!;
    const clearance = values[`${element}.radial_clearance`]!;
    const grooved = values[`${element}.land_length`] !== undefined;
    const land = values[`${element}.${grooved ? 'land_length' : 'length'}`]!;
    const viscosity = computed?.viscosity ?? oilAt(circuit, running.temperature + rise).viscosity;
    const eccentricity = values[`${element}.eccentricity_ratio`] ?? Number.NaN;
    return {
      element,
      ...(on && { load: on }),
      clearance,
      measured: circuit.parameters.some(
        ({ name, measured: read }) => name === `${element}.radial_clearance` && read !== undefined,
      ),
      lengthOverDiameter: land / diameter,
      assumed: { rise, eccentricity },
      ...(computed && { computed }),
      ...(on && {
        orbit: journalOrbit({
          load: on.load,
          meanTurning: on.meanTurning,
          period: second((4 * Math.PI) / running.speed),
          radius: metre(diameter / 2),
          land: metre(land),
          lands: grooved ? 2 : 1,
          clearance: metre(clearance),
          viscosity: pascalSecond(viscosity),
        }),
      }),
    };
  });
  const at = ({ pressures }: SolvedNetwork): number => pressures[circuit.gauge]!;
  return ok({
    running,
    ...(loads && { loads }),
    films,
    gauge: { assumed: at(before.value), ...(heated.ok && { computed: at(heated.value.solved) }) },
    ...(!heated.ok && { unsettled: heated.issues[0]! }),
    cautions: cautionsOf(films, loads !== undefined),
  });
}

/** A turning journal with a film of its own; what only swings is not heated. */
const isBearing = (values: Readonly<Record<string, number>>, id: string): boolean =>
  values[`${id}.speed_ratio`] !== undefined && values[`${id}.radial_clearance`] !== undefined;

function cautionsOf(films: readonly BearingFilm[], loaded: boolean): Caution[] {
  const names = (some: readonly BearingFilm[]): string => some.map(({ element }) => element).join(', ');
  const beyond = films.filter(({ computed }) => computed && !computed.solved);
  const starved = films.filter(({ computed }) => computed && !computed.carried);
  const restless = films.filter(({ orbit }) => orbit && !orbit.settled);
  const thin = films.filter(({ orbit }) => orbit && orbit.leastFilm < ROUGHNESS);
  return [
    ...(loaded
      ? [
          {
            code: 'film/cyclic-minimum',
            message:
              'The least film lasts a few degrees of the crank. Film limits of the handbooks are for steady loads and do not judge it: sound engine bearings pass through about a micrometre (from memory, no source). Compare bearings and clearances with it, not with a limit.',
          },
          {
            code: 'film/rigid',
            message:
              'Journal and shell are taken as round, stiff and always full of oil; grooves and holes only count as the lengths of the lands. Real shells give way and grow a thicker film under the peak.',
          },
          {
            code: 'film/shares-of-mains',
            message:
              'Each throw rests half on each main beside it, as though the crank were cut in every main; a real crank spreads its load. Take the mains as a rough guide.',
          },
        ]
      : []),
    ...(beyond.length > 0
      ? [
          {
            code: 'film/beyond-solved',
            message: `In ${names(beyond)} the mean load pushes the journal out to an eccentricity of ${Math.max(...beyond.map(({ computed }) => computed!.eccentricity)).toFixed(3)}. Films were solved to ${FARTHEST_SOLVED}; from there friction and film are carried on as they went, a guess.`,
          },
        ]
      : []),
    {
      code: 'film/heat-by-oil-alone',
      message:
        'All heat of friction leaves with the oil, at 1.8e6 J/(m³·K); crank and block carry some off, so the films come out warm. Other handbooks print 1.5e6, which would warm them a fifth more.',
    },
    ...(thin.length > 0
      ? [
          {
            code: 'film/as-thin-as-roughness',
            message: `In ${names(thin)} the least film is under about a micrometre, the roughness of a good journal: by this model surfaces may touch there.`,
          },
        ]
      : []),
    ...(starved.length > 0
      ? [
          {
            code: 'film/heat-not-carried',
            message: `The oil that flows through ${names(starved)} does not carry off the heat of its friction; the temperature stands at the greatest that is reckoned with.`,
          },
        ]
      : []),
    ...(restless.length > 0
      ? [
          {
            code: 'film/path-not-settled',
            message: `The journal’s path in ${names(restless)} does not come back to itself within the cycles reckoned; its least film is that of the last one.`,
          },
        ]
      : []),
  ];
}

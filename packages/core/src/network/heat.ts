import { type PlainFigures, plainTable } from '../film/plain-table.ts';
import { failed, type Issue, type Outcome, ok } from '../issue.ts';
import { filmRise, petroffPower } from '../oil/film-temperature.ts';
import { metre, pascalSecond, radianPerSecond } from '../units/si.ts';
import { filmOil } from './fluid.ts';
import type { CompiledNetwork, RunningConditions, SolvedNetwork } from './network.ts';
import { solvedNetwork } from './network.ts';

/** One land of a bearing: its length in diameters, and S of what it carries or ε where that is told. */
interface LoadedLand {
  readonly lengthOverDiameter: number;
  readonly runs: { readonly sommerfeld: number } | { readonly eccentricity: number };
}

/** How a land runs under its load: the one place where another film solution is put in. */
type SteadyFilm = (land: LoadedLand) => PlainFigures;

/**
 * The plain bearing over its finite length, out of its table. Each land of a grooved bearing is a bearing by itself.
 * The film is flooded at its widest gap; supply pressure carries no load.
 */
const byFiniteLength: SteadyFilm = ({ lengthOverDiameter, runs }) => {
  const table = plainTable(lengthOverDiameter);
  return 'sommerfeld' in runs ? table.for(runs.sommerfeld) : table.at(runs.eccentricity);
};

/** A bearing whose film is to be warmed by its own friction. */
export interface HeatedBearing {
  /** Id of a bearing of the network. */
  readonly element: string;
  /** Mean size of its load [N]; without one it keeps the eccentricity of the file. */
  readonly load?: number;
}

export interface HeatedFilm {
  readonly element: string;
  /** Over the oil in the sump [K] */
  readonly rise: number;
  readonly eccentricity: number;
  /** μ at that temperature [Pa·s] */
  readonly viscosity: number;
  /** Of one such bearing [W], [m³/s] */
  readonly power: number;
  readonly flow: number;
  /**
   * What the journal of a hole-fed bearing draws round by itself and presses out at its ends; it carries heat as well,
   * though the network does not take it from the gallery [m³/s]. A grooved land has none of its own.
   */
  readonly drawn: number;
  /** Whether its oil carries its heat off; otherwise the rise stands at the greatest that is reckoned with. */
  readonly carried: boolean;
  /** Whether the film was solved so far out; otherwise its figures are carried on from the last that was. */
  readonly solved: boolean;
}

export interface HeatedNetwork {
  readonly solved: SolvedNetwork;
  readonly films: readonly HeatedFilm[];
  /** Times that the network was balanced. */
  readonly rounds: number;
}

/** No film is let grow hotter over the sump than this [K]: far over what an engine survives. */
const HOTTEST = 120;
/** Nearest to touching that the eccentricity is let come. */
const FARTHEST = 0.999;
const MOST_ROUNDS = 80;
/** All films together settled within this [K] */
const SETTLED = 1e-4;
const ZERO_CELSIUS = 273.15;

/**
 * The network with films as warm as their own friction makes them.
 *
 * An outer loop: films are fixed while the network is balanced, so that the balance stays convex; then friction and
 * flow give each film its temperature anew. Where the journal runs under its load, what it drags and what it draws
 * come from the film over its finite length. Friction goes with μ and flow with 1/μ, so a film that starts too cool
 * comes out far too hot: each goes only 1/(1 + 2 b Δ) of its way, b the share of viscosity lost per kelvin, which is
 * Newton's step for a bearing alone. Heat leaves with what the network feeds the bearing and, in a hole-fed one, with
 * its own side flow as well: the rule of the standard is to add the two.
 *
 * @param steady  how a land runs under its load
 * @returns       an issue when the films do not settle, or no balance is found
 * @source film-heat, petroff; khonsari-booser for what the tables of the film agree with; iso-7902-1 for adding the flows
 */
export function heatedNetwork(
  network: CompiledNetwork,
  conditions: RunningConditions,
  bearings: readonly HeatedBearing[],
  steady: SteadyFilm = byFiniteLength,
): Outcome<HeatedNetwork> {
  const given = { ...network.parameters, ...conditions.parameters };
  const issues = bearings.flatMap(({ element }) => notABearing(given, element));
  const crank = conditions.speed ?? network.speed;
  const sump = conditions.temperature ?? network.temperature;
  if (issues.length > 0) return failed(...issues);
  // Without them the network itself says what is missing.
  if (crank === undefined || sump === undefined) {
    const refused = solvedNetwork(network, conditions);
    if (!refused.ok) return refused;
  }
  const warm = sump! - ZERO_CELSIUS;
  const rises = Float64Array.from(bearings, ({ element }) => given[`${element}.film_rise`]!);
  let start: ArrayLike<number> | undefined = conditions.start;
  for (let rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
    const parameters: Record<string, number> = { ...conditions.parameters };
    const films = bearings.map(({ element, load }, i) => {
      const of = (key: string): number => given[`${element}.${key}`]!;
      const { viscosity } = filmOil(network.inside.fluid, warm + rises[i]!);
      const grooved = given[`${element}.land_length`] !== undefined;
      const land = grooved ? of('land_length') : of('length');
      const lands = grooved ? 2 : 1;
      const speed = crank! * of('speed_ratio');
      const clearance = of('radial_clearance');
      const diameter = of('diameter');
      const carried = load ?? loadOf(given, element, crank!);
      const film = steady({
        lengthOverDiameter: land / diameter,
        runs:
          carried === undefined
            ? { eccentricity: of('eccentricity_ratio') }
            : {
                sommerfeld:
                  (viscosity * speed * diameter ** 3 * lands * land) /
                  (8 * Math.PI * clearance ** 2 * carried),
              },
      });
      const eccentricity = Math.min(FARTHEST, film.eccentricity);
      parameters[`${element}.film_rise`] = rises[i]!;
      if (given[`${element}.eccentricity_ratio`] !== undefined)
        parameters[`${element}.eccentricity_ratio`] = eccentricity;
      const power =
        film.drag *
        petroffPower(
          metre(diameter / 2),
          metre(lands * land),
          metre(clearance),
          pascalSecond(viscosity),
          radianPerSecond(speed),
        );
      const drawn =
        grooved || given[`${element}.side_flow_factor`] !== undefined
          ? 0
          : film.side * (diameter / 2) * clearance * speed * land;
      return {
        element,
        rise: rises[i]!,
        eccentricity,
        viscosity,
        power,
        drawn,
        solved: film.within,
        count: of('count'),
      };
    });
    const solved = solvedNetwork(network, { ...conditions, parameters, ...(start && { start }) });
    if (!solved.ok) return solved;
    start = solved.value.state;
    let farthest = 0;
    const heated = films.map(({ count, ...film }, i): HeatedFilm => {
      const flow = solved.value.flows[film.element]! / count;
      const wanted = filmRise(film.power, flow + film.drawn);
      const next = Math.min(HOTTEST, wanted);
      farthest = Math.max(farthest, Math.abs(next - film.rise));
      const warmer = filmOil(network.inside.fluid, warm + film.rise + 0.5).viscosity;
      const cooler = filmOil(network.inside.fluid, warm + film.rise - 0.5).viscosity;
      const lost = Math.log(cooler / warmer);
      rises[i] = film.rise + (next - film.rise) / (1 + 2 * lost * Math.max(next, film.rise));
      return { ...film, flow, carried: wanted <= HOTTEST };
    });
    if (farthest <= SETTLED) return ok({ solved: solved.value, films: heated, rounds });
  }
  return failed({
    code: 'network/films-not-settled',
    at: '/elements',
    got: `films still changing after ${MOST_ROUNDS} rounds`,
    wanted: 'temperatures that friction and flow agree on',
    message:
      'The film temperatures do not settle there. Check clearances and loads for sizes far out of proportion, or go by the assumed film temperatures.',
  });
}

/** The load that the file itself gives a bearing at a speed of the crank. */
function loadOf(given: Readonly<Record<string, number>>, element: string, crank: number): number | undefined {
  const load = given[`${element}.load`];
  if (load === undefined) return undefined;
  const krpm = (crank * 30) / Math.PI / 1000;
  return load + (given[`${element}.load_per_krpm2`] ?? 0) * krpm * krpm;
}

function notABearing(given: Readonly<Record<string, number>>, element: string): Issue[] {
  const has = (key: string): boolean => given[`${element}.${key}`] !== undefined;
  const runs = has('eccentricity_ratio') || has('load');
  if (has('diameter') && has('radial_clearance') && (has('length') || has('land_length')) && runs) return [];
  return [
    {
      code: 'network/not-a-bearing',
      at: `/parameters/${element}`,
      got: element.slice(0, 60),
      wanted: 'a plain bearing of the network',
      message: `The network has no plain bearing "${element.slice(0, 60)}" whose film could be warmed. Check its id.`,
    },
  ];
}

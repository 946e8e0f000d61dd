import type { Flat } from './flat.ts';
import { type Fluid, filmOil } from './fluid.ts';
import { GROWTH } from './pieces.ts';

/** Speed, and the oil of every film, the share of its viscosity not yet counted in. */
export interface FilmConditions {
  /** Of the crank [rad/s] */
  readonly speed: number;
  /** One a film. */
  readonly viscosity: Float64Array;
  readonly density: Float64Array;
}

/** The same at a temperature of the sump [K], with the list of films it was made for. */
export class SumpConditions implements FilmConditions {
  readonly speed: number;
  readonly temperature: number;
  films: number;
  viscosity: Float64Array;
  density: Float64Array;

  constructor(
    speed: number,
    temperature: number,
    films: number,
    { viscosity, density }: Pick<FilmConditions, 'viscosity' | 'density'>,
  ) {
    this.speed = speed;
    this.temperature = temperature;
    this.films = films;
    this.viscosity = viscosity;
    this.density = density;
  }

  /** The same oil at another speed. */
  at(speed: number): SumpConditions {
    return new SumpConditions(speed, this.temperature, this.films, this);
  }
}

/** What draws and calibration multiply: the oil's viscosity, and the preload of every relief valve. */
export interface Shares {
  viscosity: number;
  reliefPreload: number;
}

const ZERO_CELSIUS = 273.15;

/** @param temperature  of the sump [K] */
export function filmConditions(
  fluid: Fluid,
  rises: readonly number[],
  temperature: number,
): Pick<FilmConditions, 'viscosity' | 'density'> {
  const viscosity = new Float64Array(rises.length);
  const density = new Float64Array(rises.length);
  rises.forEach((rise, i) => {
    const oil = filmOil(fluid, temperature - ZERO_CELSIUS + rise);
    viscosity[i] = oil.viscosity;
    density[i] = oil.density;
  });
  return { viscosity, density };
}

/** Turns the coefficients that geometry left into those of this speed and this oil. */
export function underConditions(
  flat: Flat,
  { speed, viscosity, density }: FilmConditions,
  shares: Shares,
  smoothing: number,
  eccentricityOf: (wanted: number) => number,
): void {
  const { films, drawn, deliveries, holes, valves, reliefs, passages, owns, ground, constant } = flat;
  const sump = flat.nodes;
  ground.fill(0);
  constant.fill(0);
  const krpm = (speed * 30) / Math.PI / 1000;
  const krpm2 = krpm * krpm;
  const speed2 = speed * speed;

  for (let i = 0; i < films.size; i++) {
    const mu = shares.viscosity * viscosity[films.film[i]!]!;
    const h = films.gap[i]!;
    let e = films.told[i]!;
    if (e < 0) {
      const load = films.load[i]! + films.loadPerKrpm2[i]! * krpm2;
      e = eccentricityOf((4 * load * h * h) / (mu * speed * films.stiffness[i]!));
      films.eccentricity[i] = e;
    } else films.eccentricity[i] = e;
    const growth = films.growth[i];
    const grown =
      growth === GROWTH.annular ? 1 + 1.5 * e * e : growth === GROWTH.none ? 1 : (1 + e) * (1 + e) * (1 + e);
    const conductance = (films.strength[i]! * h * h * h * grown) / mu;
    films.conductance[i] = conductance;
    const head = (films.lift[i]! * speed2 + films.fall[i]!) * density[films.film[i]!]!;
    films.head[i] = head;
    const from = films.from[i]!;
    const to = films.to[i]!;
    if (to === sump) {
      ground[from]! += conductance;
      constant[from]! += conductance * head;
    } else if (from === sump) {
      ground[to]! += conductance;
      constant[to]! -= conductance * head;
    }
  }
  for (let i = 0; i < drawn.size; i++) {
    const bearing = drawn.bearing[i]!;
    drawn.most[i] = drawn.amount[i]! * films.eccentricity[bearing]! * films.gap[bearing]! * speed;
    drawn.head[i] = films.head[bearing]!;
  }
  for (let i = 0; i < deliveries.size; i++) {
    const flow = deliveries.perRadian[i]! * speed;
    deliveries.flow[i] = flow;
    constant[deliveries.from[i]!]! += flow;
    constant[deliveries.to[i]!]! -= flow;
  }
  for (const openings of [holes, valves])
    for (let i = 0; i < openings.size; i++) {
      const mu = shares.viscosity * viscosity[openings.film[i]!]!;
      const rho = density[openings.film[i]!]!;
      openings.jet[i] = openings.area[i]! * Math.sqrt(2 / rho);
      openings.soft[i] = smoothing + (openings.creeping[i]! * openings.creep[i]! * mu * mu) / rho;
      openings.reynolds[i] = (openings.diameter[i]! * Math.sqrt(2 * rho)) / mu;
      openings.head[i] = (openings.lift[i]! * speed2 + openings.fall[i]!) * rho;
    }
  for (let i = 0; i < reliefs.size; i++) {
    const rho = density[reliefs.film[i]!]!;
    reliefs.jet[i] = reliefs.area[i]! * Math.sqrt(2 / rho);
    reliefs.head[i] = (reliefs.lift[i]! * speed2 + reliefs.fall[i]!) * rho;
    reliefs.cracking[i] = reliefs.cracking0[i]! * shares.reliefPreload;
  }
  for (let i = 0; i < passages.size; i++) {
    const mu = shares.viscosity * viscosity[passages.film[i]!]!;
    const rho = density[passages.film[i]!]!;
    passages.linear[i] = passages.linear0[i]! * mu;
    passages.minor[i] = passages.minor0[i]! * rho;
    // ρ^¾ μ^¼ by roots: a power costs twenty times as much.
    passages.turbulent[i] = passages.turbulent0[i]! * Math.sqrt(rho * Math.sqrt(rho * mu));
    passages.crossing[i] = (passages.crossing0[i]! * mu) / rho;
    passages.head[i] = (passages.lift[i]! * speed2 + passages.fall[i]!) * rho;
  }
  for (let i = 0; i < owns.size; i++) {
    const rho = density[owns.film[i]!]!;
    const mu = shares.viscosity * viscosity[owns.film[i]!]!;
    owns.law[i] = owns.make[i]!({ viscosity: mu, density: rho, speed, smoothing });
    owns.head[i] = (owns.lift[i]! * speed2 + owns.fall[i]!) * rho;
  }
}

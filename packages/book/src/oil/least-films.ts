import {
  type HeatedFilm,
  linear,
  type Orbit,
  type Outcome,
  standardUncertainty,
  type Uncertain,
} from '@fettle/core';
import type { FilledParameter } from './circuit.ts';

/** The least film of one bearing [m], with the doubt that the readings leave in it, to first order. */
export interface LeastFilm {
  /** Over the cycle, by the journal's path; absent where its load is not known. */
  readonly cycle?: Uncertain;
  /** Under the mean load standing still; absent where the films did not settle. */
  readonly steady?: Uncertain;
}

/** One bearing as far as its least film goes. */
export interface Gap {
  readonly element: string;
  readonly clearance: number;
  readonly viscosity: number;
  readonly computed?: HeatedFilm | undefined;
  readonly orbit?: Orbit | undefined;
}

/** What of an engine can be worked out anew with other readings. */
export interface Reworked {
  readonly heated: (values: Readonly<Record<string, number>>) => Outcome<readonly HeatedFilm[]>;
  readonly leastOver: (bearing: Gap, clearance: number, viscosity: number) => number;
}

/** A step of the viscosity that shows its slope and no more. */
const STEP = 0.02;

/**
 * Least films with the doubt of every reading that the circuit rests on: a clearance changes its own film and, through
 * the oil it lets go, how warm all others run. Slopes are central differences one standard uncertainty wide; the path
 * answers to its own clearance and film temperature, the loads of the crank are taken as they are.
 */
export function leastFilms(
  parameters: readonly Pick<FilledParameter, 'name' | 'measured'>[],
  values: Readonly<Record<string, number>>,
  bearings: readonly Gap[],
  { heated, leastOver }: Reworked,
): LeastFilm[] {
  const doubted = parameters.flatMap(({ name, measured }) => {
    const u = measured ? standardUncertainty(measured) : 0;
    return measured && u > 0 ? [{ name, measured, u: Math.min(u, values[name]! / 2) }] : [];
  });
  const moved = doubted.map(({ name, u }) => ({
    more: heated({ ...values, [name]: values[name]! + u }),
    less: heated({ ...values, [name]: values[name]! - u }),
  }));
  return bearings.map((bearing, i): LeastFilm => {
    const { element, clearance, viscosity, computed, orbit } = bearing;
    /** How a figure of this bearing's film answers to each reading. */
    const slopes = (figure: (film: HeatedFilm | undefined, clearance: number) => number): number[] =>
      doubted.map(({ name, u }, j) => {
        const own = name === `${element}.radial_clearance` ? u : 0;
        const { more, less } = moved[j]!;
        // A film that does not settle with one reading moved keeps the temperature it has.
        const [above, below] = more.ok && less.ok ? [more.value[i], less.value[i]] : [computed, computed];
        return (figure(above, clearance + own) - figure(below, clearance - own)) / (2 * u);
      });
    const doubtful = (value: number, by: readonly number[]): Uncertain => ({
      value,
      terms: linear(doubted.map(({ measured }, j) => ({ factor: by[j]!, of: measured }))).terms,
    });
    const steady = (film: HeatedFilm | undefined, c: number): number =>
      film ? c * (1 - film.eccentricity) : 0;
    return {
      ...(computed && { steady: doubtful(steady(computed, clearance), slopes(steady)) }),
      ...(orbit && { cycle: doubtful(orbit.leastFilm, cycleSlopes()) }),
    };

    function cycleSlopes(): number[] {
      const own = doubted.find(({ name }) => name === `${element}.radial_clearance`);
      const wide = own?.u ?? STEP * clearance;
      const byClearance =
        (leastOver(bearing, clearance + wide, viscosity) - leastOver(bearing, clearance - wide, viscosity)) /
        (2 * wide);
      const thick = STEP * viscosity;
      const byViscosity =
        (leastOver(bearing, clearance, viscosity + thick) -
          leastOver(bearing, clearance, viscosity - thick)) /
        (2 * thick);
      const gaps = slopes((_, c) => c);
      const oil = slopes((film) => film?.viscosity ?? 0);
      return doubted.map((_, j) => byClearance * gaps[j]! + byViscosity * oil[j]!);
    }
  });
}

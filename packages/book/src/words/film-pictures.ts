import { printQuantity, seenFromRod } from '@fettle/core';
import type { FilmField } from '../oil/film-field.ts';
import type { BearingFilm } from '../oil/film-temperatures.ts';
import { degrees, microns, micronWords } from './film.ts';

/** Turns of the crank as an angle in words. */
const ofCycle = (share: number): string => degrees(share * 4 * Math.PI);

/** What is written on the unrolled film of a bearing, and said of it. */
export function fieldWords({ film, clearance, pascal, load, supply }: FilmField) {
  const least = `least film ${microns((1 - film.eccentricity) * clearance)}`;
  const peak = `peak ${printQuantity(film.peak * pascal, 'MPa', 2)}`;
  return {
    chart: { ...film.field, least: { at: film.attitude, text: least }, peak },
    desc: `Pressure in the film under a steady load of ${printQuantity(load, 'kN', 2)}, fed at ${printQuantity(supply, 'kPa', 0)}; ${peak}, ${least}.`,
  };
}

/** The journal's path and the load that drives it; undefined where the load is not known. */
export function orbitWords({ element, orbit, load, least: { cycle } }: BearingFilm) {
  if (!orbit || !load || !cycle) return undefined;
  const steps = orbit.x.length;
  const pairs = (x: Float64Array, y: Float64Array) => Array.from(x, (one, i) => [one, y[i]!] as const);
  const marks = [0, 180, 360, 540].map((at) => ({
    index: Math.round((at / 720) * steps),
    text: `${at}°`,
  }));
  const rod = load.bearing === 'rod';
  const seen = rod ? seenFromRod(load.crank, load.load) : load.load;
  const greatestAt = load.greatestAt / (4 * Math.PI);
  const least = `least film ${micronWords(cycle)} at ${ofCycle(orbit.leastAt)}`;
  const greatest = `greatest ${printQuantity(load.greatest, 'kN', 1)} at ${ofCycle(greatestAt)}`;
  return {
    desc: `The journal’s centre over two turns of the crank; the circle is the clearance; ${least}; load ${greatest}.`,
    chart: {
      path: {
        name: `${element}, path of the journal in its clearance`,
        points: pairs(orbit.x, orbit.y),
        most: { index: Math.round(orbit.leastAt * steps), text: least },
        marks,
      },
      load: {
        name: rod ? 'load, seen from the rod' : 'load, seen from the block',
        points: pairs(seen.x, seen.y),
        most: { index: Math.round(greatestAt * steps), text: greatest },
        marks,
      },
    },
  };
}

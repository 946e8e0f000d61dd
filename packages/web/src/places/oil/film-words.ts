import { type BearingFilm, type FilledCrank, type FilmField, filmWords } from '@fettle/book';
import { type Issue, printQuantity, seenFromRod } from '@fettle/core';
import type { orbitSvg } from '@fettle/draw';

const { microns } = filmWords;

export const hasCylinders = (crank: FilledCrank | Issue): crank is FilledCrank => 'cylinders' in crank;

/** What is written on the picture of a film. */
export function fieldWords({ film, clearance, pascal, load, supply }: FilmField) {
  const least = `least film ${microns((1 - film.eccentricity) * clearance)}`;
  const peak = `peak ${printQuantity(film.peak * pascal, 'MPa', 2)}`;
  return {
    least,
    peak,
    desc: `Pressure in the film under a steady load of ${printQuantity(load, 'kN', 2)}, fed at ${printQuantity(supply, 'kPa', 0)}; ${peak}, ${least}.`,
  };
}

/** The journal's path and the load that drives it; undefined where the load is not known. */
export function orbitChart({
  element,
  orbit,
  load,
}: BearingFilm): { readonly chart: Parameters<typeof orbitSvg>[0]; readonly desc: string } | undefined {
  if (!orbit || !load) return undefined;
  const steps = orbit.x.length;
  const pairs = (x: Float64Array, y: Float64Array) => Array.from(x, (one, i) => [one, y[i]!] as const);
  const marks = [0, 180, 360, 540].map((at) => ({
    index: Math.round((at / 720) * steps),
    text: `${at}°`,
  }));
  const rod = load.bearing === 'rod';
  const seen = rod ? seenFromRod(load.crank, load.load) : load.load;
  const least = `least film ${microns(orbit.leastFilm)} at ${Math.round(orbit.leastAt * 720)}°`;
  const greatest = `greatest ${printQuantity(load.greatest, 'kN', 1)} at ${Math.round((load.greatestAt / (4 * Math.PI)) * 720)}°`;
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
        most: { index: Math.round((load.greatestAt / (4 * Math.PI)) * steps), text: greatest },
        marks,
      },
    },
  };
}

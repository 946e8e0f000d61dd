import type { BearingFilm, Book, FilledCrank, FilmField, LoadFigure } from '@fettle/book';
import { type Issue, inUnit, printQuantity, seenFromRod, TYPICAL_CYCLE } from '@fettle/core';
import type { orbitSvg } from '@fettle/draw';
import { pressureUnit } from '../../words/pressure.ts';

// The words and units in which the command line says the same.

interface FilmUnits {
  readonly pressure: string;
  readonly force: string;
  readonly gap: 'thou' | 'um';
  readonly gapDecimals: number;
  readonly length: string;
}

export const filmUnits = (book: Book): FilmUnits => {
  const pressure = pressureUnit(book);
  return pressure === 'psi'
    ? { pressure, force: 'lbf', gap: 'thou', gapDecimals: 3, length: 'in' }
    : { pressure, force: 'N', gap: 'um', gapDecimals: 1, length: 'mm' };
};

const degrees = (angle: number): string => printQuantity(angle, 'deg', 0);
const kelvins = (rise: number): string => `${rise.toFixed(1)} K`;
const microns = (length: number): string => `${(length * 1e6).toFixed(1)} µm`;

export const hasCylinders = (crank: FilledCrank | Issue): crank is FilledCrank => 'cylinders' in crank;

/** One bearing in the columns of the table. */
export function filmCells(film: BearingFilm, units: FilmUnits, loaded: boolean): string[] {
  const { load, orbit, computed, assumed } = film;
  const force = (newtons: number): string => printQuantity(newtons, units.force, 0);
  const eccentricity = `${Number.isNaN(assumed.eccentricity) ? '' : `${assumed.eccentricity.toFixed(2)} → `}${computed?.eccentricity.toFixed(2) ?? '?'}`;
  const warm = `${kelvins(assumed.rise)} → ${computed ? `${computed.carried ? '' : 'over '}${kelvins(computed.rise)}` : '?'}`;
  if (!loaded) return [eccentricity, warm];
  return [
    load ? force(load.mean) : 'not known',
    load ? force(load.greatest) : '',
    load ? degrees(load.greatestAt) : '',
    eccentricity,
    warm,
    orbit ? `${gapWords(orbit.leastFilm, units)}${orbit.settled ? '' : ' ?'}` : '',
    orbit ? degrees(orbit.leastAt * 4 * Math.PI) : '',
  ];
}

const gapWords = (gap: number, units: FilmUnits): string =>
  units.gap === 'um'
    ? microns(gap)
    : `${inUnit(gap, 'thou').toFixed(units.gapDecimals)} thou (${microns(gap)})`;

export const FILM_COLUMNS = {
  loaded: ['load, mean', 'greatest', 'at', 'off centre', 'film over sump', 'least film', 'at'],
  unloaded: ['off centre', 'film over sump'],
} as const;

const { heat, chargeTemperature, exponent, burnStarts, burnLasts } = TYPICAL_CYCLE;
export const CYCLE_WORDS =
  `The cycle is a stated one: inlet at the charge’s pressure, compression and expansion with exponent ${exponent}, ` +
  `heat released along Wiebe’s curve from ${degrees(burnStarts)} before the top over ${degrees(burnLasts)}, ` +
  `${(heat / 1e6).toFixed(1)} MJ for each kg of charge at ${printQuantity(chargeTemperature, 'degC', 0)}, exhaust at the pressure outside. ` +
  'None of this was measured here: it is typical of a petrol engine, assumed.';

const NAMES: Readonly<Record<LoadFigure['figure'], string>> = {
  bore: 'bore',
  stroke: 'stroke',
  rod: 'rod, between centres',
  compression_ratio: 'compression ratio',
  piston_mass: 'piston, rings and pin',
  rod_mass: 'rod, whole',
  rod_big_end_mass: 'rod, big end',
  throw_mass: 'throw out of balance',
  inlet_shuts: 'inlet shuts, after bottom',
  exhaust_opens: 'exhaust opens, before bottom',
};

function figureWords({ kind, value }: LoadFigure, units: FilmUnits): string {
  if (kind === 'length') return printQuantity(value, units.length, units.length === 'in' ? 3 : 2);
  if (kind === 'mass') return printQuantity(value, 'g', 1);
  if (kind === 'angle') return degrees(value);
  return String(Number(value.toPrecision(4)));
}

/** Each figure of the crank with where it comes from; one where all cylinders share it, else one after the other. */
export function crankFigures({ cylinders }: FilledCrank, units: FilmUnits): string[] {
  return (Object.keys(NAMES) as LoadFigure['figure'][]).map((key) => {
    const all = cylinders.map(({ figures }) => figures[key]);
    const words = [...new Set(all.map((one) => figureWords(one, units)))];
    const each = words.length > 1 ? all.map((one) => figureWords(one, units)) : words;
    const from = [
      ...new Set(
        all.map(({ from: origin, basis }) =>
          origin === 'measured'
            ? 'measured'
            : origin === 'sheet'
              ? `the sheet’s${basis ? ` (${basis})` : ''}`
              : `not known, stands in: ${basis}`,
        ),
      ),
    ];
    return `${NAMES[key]}: ${each.join(', ')} (${from.join('; ')})`;
  });
}

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

import { expanded, inUnit, printQuantity, TYPICAL_CYCLE, type Uncertain } from '@fettle/core';
import type { FilledCrank, LoadFigure } from '../oil/bearing-loads.ts';
import type { BearingFilm, FilmPrediction } from '../oil/film-temperatures.ts';
import { doubted } from './doubt.ts';

/** What the figures of the films rest on, a sentence or two each. */
export const FILM_GROUNDS: readonly string[] = [
  'Temperature: the sump’s, and half of what the oil gains on its way through. Eccentricity from the mean load, friction and side flow by the film solved over the bearing’s own length, each land by itself; heat carried by the oil that the circuit feeds the bearing and, in hole-fed ones, by what the journal draws round as well (ISO 7902).',
  'Least film: the journal’s path over the cycle by the mobility of a land of that length, solved here and tabled, at that film temperature; beside it the film under the mean load standing still. The ± is what the readings leave open, at about 95 % and to first order; the model itself is coarser than that and carries no band.',
  'These figures compare bearings and clearances of one engine. The maker’s clearances outrank them.',
];

export interface FilmUnits {
  readonly pressure: string;
  readonly force: string;
  readonly gap: 'thou' | 'um';
  readonly length: string;
}

/** Units that go with the pressure of the sheet. */
export const filmUnits = (pressure: string): FilmUnits =>
  pressure === 'psi'
    ? { pressure, force: 'lbf', gap: 'thou', length: 'in' }
    : { pressure, force: 'N', gap: 'um', length: 'mm' };

export const degrees = (angle: number): string => printQuantity(angle, 'deg', 0);
export const kelvins = (rise: number): string => `${rise.toFixed(1)} K`;
export const microns = (length: number): string => `${(length * 1e6).toFixed(1)} µm`;

/** `4.8 ±0.3 µm` */
export const micronWords = (q: Uncertain): string => `${doubted(q.value * 1e6, expanded(q).U * 1e6, 1)} µm`;

/** `0.189 ±0.012 thou`, or in microns where the sheet is metric. */
export const gapWords = (q: Uncertain, { gap: unit }: FilmUnits): string =>
  unit === 'um'
    ? micronWords(q)
    : `${doubted(inUnit(q.value, 'thou'), inUnit(expanded(q).U, 'thou'), 3)} thou`;

/** The least film over the cycle; a path that does not come back to itself says so. */
export function leastWords({ least, orbit }: BearingFilm, units: FilmUnits): string {
  if (!least.cycle) return '';
  const also = units.gap === 'um' ? '' : ` (${microns(least.cycle.value)})`;
  return `${gapWords(least.cycle, units)}${also}${orbit?.settled ? '' : ', not settled'}`;
}

/** The film under the mean load, as if that stood still. */
export const steadyWords = ({ least }: BearingFilm, units: FilmUnits): string =>
  least.steady ? gapWords(least.steady, units) : '';

/** The rise of a film's temperature as computed; `over` where the oil that is fed carries too little. */
export const riseWords = (computed: BearingFilm['computed']): string =>
  computed ? `${computed.carried ? '' : 'over '}${kelvins(computed.rise)}` : '?';

export const FILM_COLUMNS = {
  loaded: [
    'load, mean',
    'greatest',
    'at',
    'off centre',
    'film over sump',
    'at the mean load',
    'least film',
    'at',
  ],
  unloaded: ['off centre', 'film over sump', 'least film'],
} as const;

/** One bearing in the columns of `FILM_COLUMNS`. */
export function filmCells(film: BearingFilm, units: FilmUnits, loaded: boolean): string[] {
  const { load, orbit, computed, assumed } = film;
  const force = (newtons: number): string => printQuantity(newtons, units.force, 0);
  const eccentricity = `${Number.isNaN(assumed.eccentricity) ? '' : `${assumed.eccentricity.toFixed(2)} → `}${computed?.eccentricity.toFixed(2) ?? '?'}`;
  const warm = `${kelvins(assumed.rise)} → ${riseWords(computed)}`;
  if (!loaded) return [eccentricity, warm, steadyWords(film, units)];
  return [
    load ? force(load.mean) : 'not known',
    load ? force(load.greatest) : '',
    load ? degrees(load.greatestAt) : '',
    eccentricity,
    warm,
    steadyWords(film, units),
    leastWords(film, units),
    orbit ? degrees(orbit.leastAt * 4 * Math.PI) : '',
  ];
}

/** What the gauge would show with the films assumed, and with those computed. */
export function filmGaugeWords({ gauge }: FilmPrediction, unit: string): string {
  const pressure = (pascals: number): string => printQuantity(pascals, unit, 1);
  const computed =
    gauge.computed === undefined ? '' : `, ${pressure(gauge.computed)} with those computed here`;
  return `At the gauge ${pressure(gauge.assumed)} with the film temperatures and eccentricities the circuit assumes${computed}.`;
}

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

/** A figure of the crank: one where all cylinders share it, else one after the other, and where it comes from. */
export interface CrankFigureWords {
  readonly name: string;
  readonly said: string;
  readonly from: string;
}

export function crankFigures({ cylinders }: FilledCrank, units: FilmUnits): CrankFigureWords[] {
  return (Object.keys(NAMES) as LoadFigure['figure'][]).map((key) => {
    const all = cylinders.map(({ figures }) => figures[key]);
    const words = all.map((one) => figureWords(one, units));
    const distinct = [...new Set(words)];
    const from = all.map(({ from: origin, basis }) =>
      origin === 'measured'
        ? 'measured'
        : origin === 'sheet'
          ? `the sheet’s${basis ? ` (${basis})` : ''}`
          : 'not known: STANDS IN',
    );
    return {
      name: NAMES[key],
      said: (distinct.length > 1 ? words : distinct).join(', '),
      from: [...new Set(from)].join('; '),
    };
  });
}

/** Every figure that nobody gave, and what was put in its place. */
export const standInWords = ({ cylinders }: FilledCrank): string[] => [
  ...new Set(
    cylinders.flatMap(({ figures }) =>
      Object.values(figures)
        .filter(({ from }) => from === 'assumed')
        .map(({ figure, basis }) => `Stands in for ${NAMES[figure]}: ${basis ?? 'assumed'}.`),
    ),
  ),
];
